#pragma once

namespace gill::driver {

/// Asks the system to back the heap with large pages. A house of thousands of drinks fills hundreds of
/// megabytes once, and mapping them a small page at a time takes as long as compiling does. Call it first in
/// `main`; where the system does not offer large pages nothing changes.
void prefer_large_pages();

}  // namespace gill::driver
