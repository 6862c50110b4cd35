/* sha256.c: FIPS 180-4, section 6.2. */
#include "log/log.h"

#include <string.h>

static const uint32_t K[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

static uint32_t turned(uint32_t x, int n)
{
    return x >> n | x << (32 - n);
}

static void take_block(uint32_t h[8], const unsigned char *block)
{
    uint32_t w[64], v[8];
    for (size_t t = 0; t < 16; t++)
        w[t] = (uint32_t)block[4 * t] << 24 | (uint32_t)block[4 * t + 1] << 16 | (uint32_t)block[4 * t + 2] << 8 |
               (uint32_t)block[4 * t + 3];
    for (size_t t = 16; t < 64; t++) {
        uint32_t s0 = turned(w[t - 15], 7) ^ turned(w[t - 15], 18) ^ w[t - 15] >> 3;
        uint32_t s1 = turned(w[t - 2], 17) ^ turned(w[t - 2], 19) ^ w[t - 2] >> 10;
        w[t] = w[t - 16] + s0 + w[t - 7] + s1;
    }
    memcpy(v, h, sizeof v);
    for (size_t t = 0; t < 64; t++) {
        uint32_t e = v[4], a = v[0];
        uint32_t t1 = v[7] + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & v[5]) ^ (~e & v[6])) + K[t] + w[t];
        uint32_t t2 = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & v[1]) ^ (a & v[2]) ^ (v[1] & v[2]));
        memmove(v + 1, v, 7 * sizeof *v);
        v[4] += t1;
        v[0] = t1 + t2;
    }
    for (size_t i = 0; i < 8; i++) h[i] += v[i];
}

void sw_log_sha256(const void *bytes, size_t length, char out[SW_LOG_HASH_ROOM])
{
    static const char digits[] = "0123456789abcdef";
    uint32_t h[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    unsigned char last[128] = {0};
    size_t whole = length / 64 * 64, rest = length - whole, tail = rest < 56 ? 64 : 128;
    for (size_t i = 0; i < whole; i += 64) take_block(h, (const unsigned char *)bytes + i);
    if (rest > 0) memcpy(last, (const unsigned char *)bytes + whole, rest);
    last[rest] = 0x80;
    for (size_t i = 0; i < 8; i++) last[tail - 1 - i] = (unsigned char)((uint64_t)length * 8 >> 8 * i);
    for (size_t i = 0; i < tail; i += 64) take_block(h, last + i);
    for (size_t i = 0; i < 64; i++) out[i] = digits[h[i / 8] >> (28 - 4 * (i % 8)) & 15];
    out[64] = '\0';
}
