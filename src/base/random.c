/* random.c: xoshiro256**, seeded through splitmix64. Source: Blackman & Vigna, Scrambled linear pseudorandom
 * number generators, ACM TOMS 47 (2021); constants from memory, checked in tests against the authors' first outputs. */
#include "base/base.h"

static uint64_t splitmix64(uint64_t *state)
{
    uint64_t z = (*state += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

static uint64_t rotl(uint64_t x, int k)
{
    return x << k | x >> (64 - k);
}

sw_random sw_random_seeded(uint64_t seed)
{
    sw_random random;
    for (int i = 0; i < 4; i++) random.s[i] = splitmix64(&seed);
    return random;
}

uint64_t sw_random_next(sw_random *random)
{
    uint64_t *s = random->s;
    uint64_t result = rotl(s[1] * 5, 7) * 9;
    uint64_t t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotl(s[3], 45);
    return result;
}

double sw_random_unit(sw_random *random)
{
    return (double)(sw_random_next(random) >> 11) * 0x1p-53;
}

double sw_random_between(sw_random *random, double low, double high)
{
    return low + (high - low) * sw_random_unit(random);
}

size_t sw_random_below(sw_random *random, size_t count)
{
    SW_ASSERT(count > 0);
    uint64_t limit = UINT64_MAX - UINT64_MAX % count; /* refuse the uneven tail */
    uint64_t x = sw_random_next(random);
    while (x >= limit) x = sw_random_next(random);
    return (size_t)(x % count);
}
