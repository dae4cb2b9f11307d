#include "base/date.h"

#include <catch2/catch.hpp>

using gill::base::not_a_date;
using gill::base::read_iso_date;

TEST_CASE("a day that is no ISO date is told as it would be written") {
  CHECK(not_a_date("05.12.2026") == "`05.12.2026` is no date; write it as 2026-12-05");
  CHECK(not_a_date("5.12.26") == "`5.12.26` is no date; write it as 2026-12-05");
  CHECK(not_a_date("5/12/2026") == "`5/12/2026` is no date; write it as 2026-12-05 or 2026-05-12");
  CHECK(not_a_date("25/12/2026") == "`25/12/2026` is no date; write it as 2026-12-25");
  CHECK(not_a_date("12/25/2026") == "`12/25/2026` is no date; write it as 2026-12-25");
  CHECK(not_a_date("2026/12/5") == "`2026/12/5` is no date; write it as 2026-12-05");
  CHECK(not_a_date("5/5/2026") == "`5/5/2026` is no date; write it as 2026-05-05");
}

TEST_CASE("a text that is no day at all is answered with an example") {
  for (const char* text : {"soon", "18/9", "31.2.2026", "", "1.2", "1.2.3.4", "5.12-2026", "99999999999.1.1"})
    CHECK(not_a_date(text).ends_with("write it as 2026-03-19"));
  CHECK_FALSE(read_iso_date("2026-02-30"));
}
