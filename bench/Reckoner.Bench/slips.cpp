// Slips of the shared-register divider as somebody would try them in C++: a right and a slipped machine side by side, for every
// pair of operands, counting where the results differ and keeping the smallest pair.
// Prints thousand million cases times slips a second of processor time, then a line per slip: name, failures, smallest pair.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <ctime>

static double processor_seconds() {
    timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return t.tv_sec + t.tv_nsec * 1e-9;
}

enum Slip {
    none, longer, shorter, adds, one_forgotten, keeps_always, keeps_never, keeps_turned, last_always, last_never, last_turned,
    zero_enters, other_enters, left_out, doubled, borrow_ignored
};

struct Results { uint32_t quotient, remainder; };

template <Slip slip> static inline Results divide(int n, uint32_t dividend, uint32_t d) {
    const uint32_t mask = (1u << n) - 1;
    uint32_t left = 0, right = dividend;
    const int rounds = n + 1 + (slip == longer) - (slip == shorter);
    for (int k = 0; k < rounds; k++) {
        uint32_t wide = slip == adds ? left + d : slip == one_forgotten ? left + (~d & mask) : left - d;
        bool borrow = slip == adds || slip == one_forgotten ? wide > mask : left < d;
        bool keeps = slip == keeps_always || (slip != keeps_never && (slip == keeps_turned ? borrow : !borrow));
        if (keeps) left = wide & mask;
        bool last = k == rounds - 1;
        if (slip == last_always || (slip != last_never && (slip == last_turned ? !last : last))) {
            uint32_t enters = slip == zero_enters ? 0 : slip == other_enters ? borrow : !borrow;
            right = (right << 1 | enters) & mask;
        } else {
            uint32_t enters = slip == borrow_ignored ? 1 : !borrow;
            for (int i = 0; i < (slip == left_out ? 0 : slip == doubled ? 2 : 1); i++) {
                left = (left << 1 | right >> (n - 1)) & mask;
                right = (right << 1 | enters) & mask;
            }
        }
    }
    return {right, left};
}

template <Slip slip> __attribute__((noinline)) static void tried(int n, const char *name, bool print) {
    uint32_t failures = 0, smallest = UINT32_MAX, dividend = 0, divisor = 0;
    for (uint32_t a = 0; a >> n == 0; a++)
        for (uint32_t b = 1; b >> n == 0; b++) {
            Results right = divide<none>(n, a, b), wrong = divide<slip>(n, a, b);
            if (right.quotient == wrong.quotient && right.remainder == wrong.remainder) continue;
            failures++;
            // The smaller sum first, then the smaller divisor.
            uint32_t rank = (a + b) << n | b;
            if (rank < smallest) { smallest = rank; dividend = a; divisor = b; }
        }
    if (print) printf("%s %u %u %u\n", name, failures, dividend, divisor);
}

static int all(int n, bool print) {
    tried<longer>(n, "loop-longer-repeat", print);
    tried<shorter>(n, "loop-shorter-repeat", print);
    tried<adds>(n, "add-for-subtract-difference", print);
    tried<one_forgotten>(n, "one-forgotten-difference", print);
    tried<keeps_always>(n, "guard-dropped-not-borrow", print);
    tried<keeps_never>(n, "guard-never-not-borrow", print);
    tried<keeps_turned>(n, "guard-turned-not-borrow", print);
    tried<last_always>(n, "guard-dropped-last", print);
    tried<last_never>(n, "guard-never-last", print);
    tried<last_turned>(n, "guard-turned-last", print);
    tried<zero_enters>(n, "zero-enters-right", print);
    tried<other_enters>(n, "other-bit-enters-right", print);
    tried<left_out>(n, "shift-left-out-R", print);
    tried<doubled>(n, "shift-doubled-R", print);
    tried<borrow_ignored>(n, "carry-ignored-R", print);
    return 15;
}

int main(int, char **arguments) {
    const int n = atoi(arguments[1]);
    double cases = 0, seconds = 0;
    const double begin = processor_seconds();
    do {
        cases += (double)all(n, false) * (1u << n) * ((1u << n) - 1);
        seconds = processor_seconds() - begin;
    } while (seconds < 0.5);
    printf("%.6f\n", cases / seconds / 1e9);
    all(n, true);
}
