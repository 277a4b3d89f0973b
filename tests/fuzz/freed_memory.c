/* Memory that is freed is spoilt and kept for a while, so that whoever still uses it fails at once.

   By hand, outside the usual checks, with the C library of Linux:

       gcc -O2 -shared -fPIC -fno-builtin tests/fuzz/freed_memory.c -o freed_memory.so
       LD_PRELOAD=$PWD/freed_memory.so QT_QPA_PLATFORM=offscreen python -m pytest -n 2 tests/ui

   An item of Qt that ends while Qt still handles its event mostly lives on unharmed, and ends the
   program once in some hundred runs; with this it does so every time. */

#include <malloc.h>
#include <stdatomic.h>
#include <string.h>

extern void __libc_free(void *);

enum { KEPT = 1 << 20, LARGEST = 1 << 20, SPOILT = 0xA5 };

static void *kept[KEPT];
static unsigned next;
static atomic_flag busy = ATOMIC_FLAG_INIT;

void free(void *block)
{
    if (!block)
        return;
    size_t bytes = malloc_usable_size(block);
    if (bytes > LARGEST) {
        __libc_free(block);
        return;
    }
    memset(block, SPOILT, bytes);
    while (atomic_flag_test_and_set(&busy))
        ;
    void *oldest = kept[next];
    kept[next] = block;
    next = (next + 1) % KEPT;
    atomic_flag_clear(&busy);
    __libc_free(oldest);
}
