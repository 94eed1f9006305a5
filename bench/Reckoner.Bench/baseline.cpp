// The shared-register divider as somebody would write it in C++, for every dividend and a spread of divisors, counting
// failures. Prints thousand million cases a second of processor time.
//   scalar: one case after another, checked with / and %
//   vectorised: the width fixed at compile time, checked with q * d + r, in the narrowest words in which that is exact, so
//   that the compiler turns the loop over dividends into vector instructions
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>

static double processor_seconds() {
    timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return t.tv_sec + t.tv_nsec * 1e-9;
}

__attribute__((noinline)) static uint64_t scalar(int n, uint64_t d) {
    const uint64_t mask = (1ull << n) - 1;
    uint64_t failures = 0;
    for (uint64_t dividend = 0; dividend <= mask; dividend++) {
        uint64_t left = 0, right = dividend;
        for (int k = 0; k <= n; k++) {
            bool borrow = left < d;
            if (!borrow) left -= d;
            if (k < n) left = (left << 1 | right >> (n - 1)) & mask;
            right = (right << 1 | !borrow) & mask;
        }
        if (right != dividend / d || left != dividend % d) failures++;
    }
    return failures;
}

template <int n, class Word> __attribute__((noinline)) static uint64_t vectorised(uint64_t divisor) {
    const Word mask = (Word)((1u << n) - 1), d = (Word)divisor;
    Word failures = 0;
    for (uint32_t i = 0; i <= mask; i++) {
        Word dividend = (Word)i, left = 0, right = dividend;
#pragma GCC unroll 21
        for (int k = 0; k <= n; k++) {
            Word borrow = left < d;
            left = borrow ? left : (Word)(left - d);
            if (k < n) left = (Word)((left << 1 | right >> (n - 1)) & mask);
            right = (Word)((right << 1 | (Word)(borrow ^ 1)) & mask);
        }
        failures += (Word)(((Word)(right * d + left) != dividend) | (left >= d));
    }
    return failures;
}

int main(int, char **arguments) {
    const bool wide = !strcmp(arguments[1], "vectorised");
    const int n = atoi(arguments[2]);
    const uint64_t divisors = (1ull << n) - 1;
    uint64_t failures = 0, cases = 0, number = 0;
    const double begin = processor_seconds();
    double seconds = 0;
    do {
        uint64_t d = 1 + number++ * 2654435761u % divisors;
        failures += !wide     ? scalar(n, d)
                    : n == 8  ? vectorised<8, uint16_t>(d)
                    : n == 10 ? vectorised<10, uint32_t>(d)
                    : n == 12 ? vectorised<12, uint32_t>(d)
                    : n == 16 ? vectorised<16, uint32_t>(d)
                              : vectorised<20, uint64_t>(d);
        cases += 1ull << n;
        seconds = processor_seconds() - begin;
    } while (seconds < 0.5);
    printf("%.6f\n", cases / seconds / 1e9);
    return failures != 0;
}
