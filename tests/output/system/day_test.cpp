// Days as ISO 8601 writes them, and the clock that SOURCE_DATE_EPOCH sets.
#include "output/system/day.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "output/system/errors.h"

namespace rakelight {

TEST(Day, OnlyDaysOfTheCalendarAreRead) {
    ASSERT_TRUE(parse_day("2028-02-29"));
    EXPECT_EQ(day_in_words(*parse_day("2028-02-29")), "29 February 2028");
    for (const char* text : {"2026-02-29", "2026-2-9", "27.11.2026", "2026-13-01", "2026-11-27x", ""})
        EXPECT_FALSE(parse_day(text)) << text;
}

// 1 000 000 000 s since 1970 was 2001-09-09, 01:46:40 universal time (a well known date; `date -u -d
// @1000000000`).
TEST(Day, TheEnvironmentSetsTheClock) {
    setenv("SOURCE_DATE_EPOCH", "1000000000", 1);
    EXPECT_EQ(day_in_words(today()), "9 September 2001");
    for (const char* wrong : {"", "soon", "-1", "99999999999999999999"}) {
        setenv("SOURCE_DATE_EPOCH", wrong, 1);
        EXPECT_THROW(today(), RequestError) << wrong;
    }
    unsetenv("SOURCE_DATE_EPOCH");
    EXPECT_TRUE(today().ok());
}

}  // namespace rakelight
