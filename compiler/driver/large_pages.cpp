#include "driver/large_pages.h"

#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>

namespace gill::driver {

#ifdef __GLIBC__

void prefer_large_pages() {
  // Two houses of 5,000 drinks need some 200 MB. Only what is touched is taken.
  constexpr std::size_t heap_bytes = 256u << 20;
  constexpr std::size_t large_page_bytes = 2u << 20;
  // One heap for all threads, grown in one piece and not given back before the end.
  mallopt(M_ARENA_MAX, 1);
  mallopt(M_TOP_PAD, heap_bytes);
  mallopt(M_TRIM_THRESHOLD, heap_bytes);
  mallopt(M_MMAP_THRESHOLD, 32u << 20);
  void* first = std::malloc(large_page_bytes);
  auto begin = reinterpret_cast<std::uintptr_t>(first);
  auto end = reinterpret_cast<std::uintptr_t>(sbrk(0));
  begin = (begin + large_page_bytes - 1) / large_page_bytes * large_page_bytes;
  // Another allocator than the C library's keeps its memory elsewhere.
  if (first && end > begin && end - begin <= 2 * heap_bytes)
    madvise(reinterpret_cast<void*>(begin), end - begin, MADV_HUGEPAGE);
  std::free(first);
}

#else

void prefer_large_pages() {}

#endif

}  // namespace gill::driver
