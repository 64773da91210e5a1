// The day that is written on a sheet. Whoever wants the same bytes on any day says which day it is.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace rakelight {

/// "2026-11-27" (ISO 8601); none when it is not a day of the calendar written so.
std::optional<std::chrono::year_month_day> parse_day(std::string_view text);

/// "27 November 2026".
std::string day_in_words(const std::chrono::year_month_day& day);

/// The day by the clock, in universal time; or that of the environment's SOURCE_DATE_EPOCH, seconds since
/// 1970 (the specification of that name by the Reproducible Builds project). \throws RequestError when that
/// is no number.
std::chrono::year_month_day today();

}  // namespace rakelight
