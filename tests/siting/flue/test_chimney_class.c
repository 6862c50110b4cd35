/* Designations of chimneys: read, compared; FS-6. */
#include "flue_house.h"

static sw_chimney_class class_of(sw_test *t, const char *text)
{
    sw_chimney_class c;
    sw_true_at(t, sw_chimney_class_read(text, &c), text, __FILE__, __LINE__);
    return c;
}

static bool suits(sw_test *t, const char *offered, const char *needed, double on_site_mm)
{
    sw_chimney_class a = class_of(t, offered), b = class_of(t, needed);
    return sw_chimney_class_suits(&a, &b, on_site_mm);
}

static void every_field_is_read(sw_test *t)
{
    sw_chimney_class c = class_of(t, "EN 1856-1 T450 N1 D V3 L50060 G50");
    sw_true(t, c.temperature_c == 450 && c.pressure == 'N' && c.tightness == 1 && !c.wet && c.corrosion == 3);
    sw_true(t, c.soot_fire && c.distance_mm == 50);
    c = class_of(t, "T600 N1 W V2 L50040 O40");
    sw_true(t, c.temperature_c == 600 && c.wet && c.corrosion == 2 && !c.soot_fire && c.distance_mm == 40);
    c = class_of(t, "EN 1443 T080-P2-W-1-O(20)");
    sw_true(t, c.temperature_c == 80 && c.pressure == 'P' && c.tightness == 2 && c.distance_mm == 20);
    sw_true(t, class_of(t, "T400 N2 D Vm L50100 G60").corrosion == 0);
    sw_true(t, isnan(class_of(t, "T400 N2 D 3 G").distance_mm));
}

static void what_is_no_designation_is_refused(sw_test *t)
{
    static const char *const wrong[] = {"",
                                        "T",
                                        "T450",
                                        "T450 N1 D V3",
                                        "T451 N1 D V3 G50",
                                        "T450 N3 D V3 G50",
                                        "T450 N1 X V3 G50",
                                        "T450 N1 D V4 G50",
                                        "T450 N1 D V3 G50 more",
                                        "T450 N1 D V3 Gx",
                                        "T450 N1 D V3 G(",
                                        "T450 N1 D V3 G()",
                                        "T450 N1 D V G50",
                                        "T450 N D V3 G50",
                                        "T4500000000000000000000000000000000000000 N1 D V3 G50",
                                        "T450 N1 D V3 G99999999999",
                                        "a b c d e f g h i j k l m n o p q r s t u v"};
    sw_chimney_class c;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        sw_true_at(t, !sw_chimney_class_read(wrong[i], &c), wrong[i], __FILE__, __LINE__);
    sw_true(t, !sw_chimney_class_read(NULL, &c));
}

static void every_start_of_a_designation_is_read_or_refused(sw_test *t)
{
    const char *whole = "EN 1856-1 T450 N1 D V3 L50060 G50";
    for (size_t n = 0; n <= strlen(whole); n++) {
        char *part = SW_SCRATCH(&t->run, n + 1, char);
        sw_chimney_class c;
        memcpy(part, whole, n);
        sw_true(t, sw_chimney_class_read(part, &c) == (n >= strlen(whole) - 2));
    }
}

static void wood_stoves_need_their_class(sw_test *t)
{
    const char *stove = "T400 N2 D 3 G";
    sw_true(t, suits(t, "T450 N1 D V3 L50060 G50", stove, 60));  /* FS-6: yes */
    sw_true(t, !suits(t, "T600 N1 W V2 L50040 O40", stove, 60)); /* FS-6: not for wood */
    sw_true(t, !suits(t, "T450 N1 D V3 L50060 G50", stove, 40));
    sw_true(t, suits(t, "T450 N1 D V3 L50060 G50", stove, (double)NAN));
}

static void each_field_must_be_as_good(sw_test *t)
{
    const char *need = "T400 N1 D 2 G60";
    sw_true(t, suits(t, need, need, 60));
    sw_true(t, suits(t, "T600 H1 W V3 G10", need, 60));
    sw_true(t, !suits(t, "T300 N1 D 2 G60", need, 60));
    sw_true(t, !suits(t, "T400 N2 D 2 G60", need, 60));
    sw_true(t, suits(t, "T400 P2 D 2 G60", need, 60));
    sw_true(t, !suits(t, "T400 N1 D 1 G60", need, 60));
    sw_true(t, !suits(t, "T400 N1 D Vm G60", need, 60));
    sw_true(t, !suits(t, "T400 N1 D 2 O60", need, 60));
    sw_true(t, !suits(t, "T400 N1 D 2 G60", "T400 N1 W 2 G60", 60));
    sw_true(t, !suits(t, "T400 N1 D 2 G", need, 60)); /* its distance is not stated */
}

SW_TESTS(SW_CASE(every_field_is_read), SW_CASE(what_is_no_designation_is_refused),
         SW_CASE(every_start_of_a_designation_is_read_or_refused), SW_CASE(wood_stoves_need_their_class),
         SW_CASE(each_field_must_be_as_good))
