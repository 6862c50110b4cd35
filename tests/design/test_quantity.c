#include "reading.h"

/* The value of an expression as a parameter, in the unit the model shows it in. */
static const sw_parameter *value_of(sw_test *t, const char *expression)
{
    static const sw_parameter none = {.name = "", .unit = "?", .value = NAN};
    const sw_stove *stove = read_stove(t, sw_text_format(&t->run, t->run.keep, "parameter('p', %s)", expression));
    return stove == NULL || stove->parameter_count == 0 ? &none : &stove->parameters[0];
}

typedef struct unit_case {
    const char *expression, *unit;
    double value;
} unit_case;

static void every_unit_has_its_size(sw_test *t)
{
    static const unit_case cases[] = {
        {"420*mm", "mm", 420.0},     {"250*um", "mm", 0.25},    {"4*cm", "mm", 40.0},
        {"1.5*m", "mm", 1500.0},     {"3*m2", "mm2", 3e6},      {"2*mm2", "mm2", 2.0},
        {"1*m3", "mm3", 1e9},        {"5*mm3", "mm3", 5.0},     {"90*deg", "deg", 90.0},
        {"pi*rad", "deg", 180.0},    {"250*g", "kg", 0.25},     {"3*kg", "kg", 3.0},
        {"2*min", "s", 120.0},       {"1.5*h", "s", 5400.0},    {"9*s", "s", 9.0},
        {"6.5*kW", "kW", 6.5},       {"7*W", "W", 7.0},         {"12*Pa", "Pa", 12.0},
        {"1*hPa", "Pa", 100.0},      {"2*kPa", "Pa", 2e3},      {"1*bar", "Pa", 1e5},
        {"1*MPa", "Pa", 1e6},        {"5*N", "N", 5.0},         {"1*kN", "N", 1e3},
        {"600*degC", "degC", 600.0}, {"20*K", "K", 20.0},       {"3*J", "J", 3.0},
        {"4*MJ", "MJ", 4.0},         {"80*percent", "", 0.8},   {"3.2*m/min", "mm/s", 160.0 / 3.0},
        {"0.95/kg", "1/kg", 0.95},   {"1.6*m3/h", "m3/h", 1.6}, {"2*l", "mm3", 2e6},
        {"120*A", "A", 120.0},       {"19.5*V", "V", 19.5},     {"2*A*(3*V)", "W", 6.0},
        {"12*l/min", "m3/h", 0.72},  {"15*m2/h", "m2/h", 15.0}, {"0.3/kW/h", "1/kW/h", 0.3},
        {"24*kg/m2", "kg/m2", 24.0}, {"2*s/kg", "s/kg", 2.0},   {"480*g/l", "kg/m3", 480.0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const sw_parameter *p = value_of(t, cases[i].expression);
        sw_same_text(t, p->unit, cases[i].unit);
        sw_near(t, p->value, cases[i].value, 1e-12 * cases[i].value, "SI Brochure, 9th edition");
    }
}

static void lengths_in_millimetres_stay_exact(sw_test *t)
{
    sw_near(t, value_of(t, "0.1*mm")->value, 0.1, 0.0, "as written");
    sw_near(t, value_of(t, "417.3*mm")->value, 417.3, 0.0, "as written");
}

static void sums_and_products_keep_dimensions(sw_test *t)
{
    static const unit_case cases[] = {
        {"400*mm - 2*4*mm", "mm", 392.0},
        {"3*mm * (2*mm)", "mm2", 6.0},
        {"(2*kW)*(3*h)", "MJ", 21.6},
        {"(10*N)/(2*m2)", "Pa", 5.0},
        {"-(4*mm)", "mm", -4.0},
        {"40*mm / (5*mm)", "", 8.0},
        {"(9*mm2)^0.5", "mm", 3.0},
        {"(3*mm)^2", "mm2", 9.0},
        {"600*degC - 20*degC", "K", 580.0},
        {"20*degC + 5*K", "degC", 25.0},
        {"17*mm // (5*mm)", "", 3.0},
        {"17*mm % (5*mm)", "mm", 2.0},
        {"sqrt(16*mm2)", "mm", 4.0},
        {"min(3*mm, 1*cm, 2*mm)", "mm", 2.0},
        {"max(3, 8, 5)", "", 8.0},
        {"abs(-3*K)", "K", 3.0},
        {"round(17.3*mm, 5*mm)", "mm", 15.0},
        {"sin(30*deg)", "", 0.5},
        {"cos(60*deg)", "", 0.5},
        {"tan(45*deg)", "", 1.0},
        {"asin(0.5)", "deg", 30.0},
        {"acos(0)", "deg", 90.0},
        {"atan(3*mm, 3*mm)", "deg", 45.0},
        {"atan(1)", "deg", 45.0},
        {"math.floor(3.7)", "", 3.0},
        {"(function() if 3*mm < 1*cm and 2*mm == 2*mm and 3*mm >= 3*mm then return 1 end return 0 end)()", "", 1.0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const sw_parameter *p = value_of(t, cases[i].expression);
        sw_same_text(t, p->unit, cases[i].unit);
        sw_near(t, p->value, cases[i].value, 1e-9, "derived");
    }
}

typedef struct refusal {
    const char *expression, *part;
} refusal;

static void mixing_kinds_names_both(sw_test *t)
{
    static const refusal cases[] = {
        {"40*mm + 6.5*kW", "cannot add a length (40 mm) and a power (6.5 kW)"},
        {"40*mm + 3", "cannot add a length (40 mm) and a plain number (3)"},
        {"3 - 40*mm", "cannot subtract a length (40 mm) from a plain number (3)"},
        {"40*mm < 3*kg", "cannot compare a length (40 mm) with a mass (3 kg)"},
        {"40*mm == 3*s", "cannot compare a length (40 mm) with a time (3 s)"},
        {"20*degC + 30*degC", "cannot add a temperature (20 degC) and a temperature (30 degC)"},
        {"20*degC * 2", "cannot multiply a temperature (20 degC) by a plain number (2)"},
        {"5*K - 20*degC", "cannot subtract a temperature (20 degC) from a temperature difference (5 K)"},
        {"'3' * mm", "a string value"},
        {"mm + nil", "nothing (nil"},
        {"sin(3)", "an angle is needed"},
        {"min(3*mm, 3)", "cannot compare"},
        {"sqrt(3*mm)", "square root"},
        {"(3*mm)^0.5", "cannot raise"},
        {"40*milimetre", "unknown name 'milimetre'"},
        {"asin(2)", "from -1 to 1"},
        {"degC + degC", "the bare unit degC"},
        {"round(3*mm, 0*mm)", "cannot round"},
        {"mm(3)", "not a function"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        sw_contains(t, first_error(t, sw_text_format(&t->run, t->run.keep, "local x = %s", cases[i].expression), NULL),
                    cases[i].part);
}

static void quantities_join_to_texts(sw_test *t)
{
    const sw_stove *stove = read_stove(t, "group('w ' .. 40*mm .. ' ' .. tostring(2*kW) .. type(mm), {})");
    if (stove != NULL) sw_same_text(t, stove->groups[1].name, "w 40 mm 2 kWquantity");
}

static void the_unit_minute_is_also_the_function_min(sw_test *t)
{
    sw_near(t, value_of(t, "min(3, 2) * min")->value, 120.0, 0.0, "derived: 2 min in s");
}

/* ---- settings ---- */

static const sw_model *with_settings(sw_test *t, const char *const *settings, size_t count)
{
    static const char text[] = STOVE_HEAD "parameter('width', 400*mm, { min = 340*mm, max = 520*mm }, 'clear width')\n"
                                          "parameter('share', 0.5, { min = 0, max = 1 })\nparameter('hot', 600*degC)";
    sw_design_texts in = {.stove = {"s.lua", text, sizeof text - 1}, .settings = settings, .setting_count = count};
    const sw_model *model = NULL;
    sw_run_clear_errors(&t->run);
    (void)sw_design_read_texts(&t->run, &in, &model);
    return model;
}

static void a_parameter_keeps_value_bounds_and_meaning(sw_test *t)
{
    const sw_model *model = with_settings(t, NULL, 0);
    if (!sw_true(t, model != NULL)) return;
    const sw_parameter *p = &model->stove->parameters[0];
    sw_same_text(t, p->name, "width");
    sw_same_text(t, p->meaning, "clear width");
    sw_same_text(t, p->unit, "mm");
    sw_true(t, p->value == 400.0 && p->low == 340.0 && p->high == 520.0 && p->preset == 400.0);
    sw_true(t, isinf(model->stove->parameters[2].low) && model->stove->parameters[2].low < 0.0);
    sw_true(t, p->place.line == 3);
}

static void a_setting_overrides_within_bounds(sw_test *t)
{
    static const char *const settings[] = {"width=42cm", "share=25percent", "hot=550 degC"};
    const sw_model *model = with_settings(t, settings, 3);
    if (!sw_true(t, model != NULL)) return;
    sw_near(t, model->stove->parameters[0].value, 420.0, 1e-12, "as set");
    sw_near(t, model->stove->parameters[0].preset, 400.0, 0.0, "as written");
    sw_near(t, model->stove->parameters[1].value, 0.25, 1e-12, "as set");
    sw_near(t, model->stove->parameters[2].value, 550.0, 1e-9, "as set");
}

static void wrong_settings_are_all_refused_with_bounds_and_near_names(sw_test *t)
{
    static const char *const settings[] = {"width=600mm", "widht=400mm", "share=0.5mm"};
    sw_true(t, with_settings(t, settings, 3) == NULL);
    sw_true(t, t->run.error_count == 3);
    sw_contains(t, t->run.errors[0].text, "340 mm to 520 mm");
    sw_true(t, t->run.errors[0].status == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[1].text, "a plain number (0.5)");
    sw_contains(t, t->run.errors[2].text, "did you mean 'width'?");
}

static void settings_that_are_no_values_say_why(sw_test *t)
{
    static const refusal cases[] = {
        {"width", "name=value"},
        {"=3", "name=value"},
        {"width=", "name=value"},
        {"width=abc", "begin with a number"},
        {"width=400mmm", "did you mean 'mm'"},
        {"width=400*", "missing"},
        {"width=1e999mm", "no value"},
        {"width=nan", "begin with a number"},
        {"width=400degC*mm", "cannot be joined"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *one[] = {cases[i].expression};
        sw_true(t, with_settings(t, one, 1) == NULL);
        sw_contains(t, t->run.errors[0].text, cases[i].part);
    }
    static const char *const twice[] = {"width=400mm", "width=410mm"};
    sw_true(t, with_settings(t, twice, 2) == NULL);
    sw_contains(t, t->run.errors[0].text, "set twice");
}

SW_TESTS(SW_CASE(every_unit_has_its_size), SW_CASE(lengths_in_millimetres_stay_exact),
         SW_CASE(sums_and_products_keep_dimensions), SW_CASE(mixing_kinds_names_both),
         SW_CASE(quantities_join_to_texts), SW_CASE(the_unit_minute_is_also_the_function_min),
         SW_CASE(a_parameter_keeps_value_bounds_and_meaning), SW_CASE(a_setting_overrides_within_bounds),
         SW_CASE(wrong_settings_are_all_refused_with_bounds_and_near_names),
         SW_CASE(settings_that_are_no_values_say_why))
