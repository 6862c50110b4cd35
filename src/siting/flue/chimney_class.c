/* chimney_class.c: the designation of chimneys by EN 1443 and its product standards: reader and comparison. */
#include "siting/flue/flue.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const int temperatures_c[] = {80, 100, 120, 140, 160, 200, 250, 300, 400, 450, 600};
enum { TOKENS = 16, TOKEN_ROOM = 24 };

typedef struct words {
    char token[TOKENS][TOKEN_ROOM];
    size_t count;
} words;

/* Words between spaces or dashes; false: one is too long or there are too many. */
static bool split(const char *text, words *w)
{
    w->count = 0;
    while (*text != '\0') {
        size_t n = strcspn(text, " -\t");
        if (n > 0) {
            if (w->count == TOKENS || n >= TOKEN_ROOM) return false;
            memcpy(w->token[w->count], text, n);
            w->token[w->count++][n] = '\0';
        }
        text += n + (text[n] != '\0');
    }
    return true;
}

/* A whole number of 1 to 5 digits and nothing else; -1 = no. */
static int whole(const char *text)
{
    size_t n = strspn(text, "0123456789");
    return n >= 1 && n <= 5 && text[n] == '\0' ? (int)strtol(text, NULL, 10) : -1;
}

static bool read_temperature(const char *token, sw_chimney_class *out)
{
    int c = token[0] == 'T' ? whole(token + 1) : -1;
    for (size_t i = 0; i < sizeof temperatures_c / sizeof *temperatures_c; i++)
        if (temperatures_c[i] == c) {
            out->temperature_c = c;
            return true;
        }
    return false;
}

static bool read_pressure(const char *token, sw_chimney_class *out)
{
    if (token[0] == '\0' || strchr("NPMH", token[0]) == NULL || (token[1] != '1' && token[1] != '2') ||
        token[2] != '\0')
        return false;
    out->pressure = token[0];
    out->tightness = token[1] - '0';
    return true;
}

static bool read_condensate(const char *token, sw_chimney_class *out)
{
    out->wet = strcmp(token, "W") == 0;
    return out->wet || strcmp(token, "D") == 0;
}

/* 1, 2, 3, V1 .. V3, Vm */
static bool read_corrosion(const char *token, sw_chimney_class *out)
{
    if (strcmp(token, "Vm") == 0) {
        out->corrosion = 0;
        return true;
    }
    out->corrosion = whole(token + (token[0] == 'V'));
    return out->corrosion >= 1 && out->corrosion <= 3;
}

/* G50, O40, G(50), G alone */
static bool read_fire(const char *token, sw_chimney_class *out)
{
    char number[TOKEN_ROOM];
    size_t n = strlen(token);
    if (token[0] != 'G' && token[0] != 'O') return false;
    out->soot_fire = token[0] == 'G';
    out->distance_mm = NAN;
    if (n == 1) return true;
    bool brackets = n > 3 && token[1] == '(' && token[n - 1] == ')';
    size_t from = brackets ? 2 : 1, length = n - from - brackets;
    memcpy(number, token + from, length);
    number[length] = '\0';
    out->distance_mm = whole(number);
    return out->distance_mm >= 0;
}

static bool is_liner(const char *token)
{
    return token[0] == 'L' && token[1] != '\0' && token[1 + strspn(token + 1, "0123456789")] == '\0';
}

bool sw_chimney_class_read(const char *text, sw_chimney_class *out)
{
    words w;
    size_t i = 0;
    *out = (sw_chimney_class){0};
    if (text == NULL || !split(text, &w)) return false;
    while (i < w.count && !read_temperature(w.token[i], out)) i++;
    if (i + 5 > w.count) return false;
    if (!read_pressure(w.token[i + 1], out) || !read_condensate(w.token[i + 2], out) ||
        !read_corrosion(w.token[i + 3], out))
        return false;
    i += 4;
    if (is_liner(w.token[i])) i++;
    return i + 1 == w.count && read_fire(w.token[i], out);
}

/* N2 < N1 < P2 < P1 < M2 < M1 < H2 < H1 */
static int tightness_rank(const sw_chimney_class *c)
{
    const char *order = "NPMH";
    const char *at = c->pressure != '\0' ? strchr(order, c->pressure) : NULL;
    return at == NULL ? -1 : 2 * (int)(at - order) + (c->tightness == 1);
}

bool sw_chimney_class_suits(const sw_chimney_class *offered, const sw_chimney_class *needed, double on_site_mm)
{
    double room_mm = isnan(on_site_mm) ? needed->distance_mm : on_site_mm;
    if (offered->temperature_c < needed->temperature_c) return false;
    if (tightness_rank(offered) < tightness_rank(needed)) return false;
    if (needed->wet && !offered->wet) return false;
    if (offered->corrosion < needed->corrosion) return false;
    if (needed->soot_fire && !offered->soot_fire) return false;
    return isnan(room_mm) || offered->distance_mm <= room_mm;
}
