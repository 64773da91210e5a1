#include "output/system/day.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cstdlib>

#include "output/system/errors.h"

namespace rakelight {

namespace {

std::optional<long long> number(std::string_view text) {
    long long value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || value < 0) return {};
    return value;
}

}  // namespace

std::optional<std::chrono::year_month_day> parse_day(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
    const auto y = number(text.substr(0, 4)), m = number(text.substr(5, 2)), d = number(text.substr(8, 2));
    if (!y || !m || !d) return {};
    const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(*y)),
                                          std::chrono::month(static_cast<unsigned>(*m)),
                                          std::chrono::day(static_cast<unsigned>(*d))};
    return day.ok() ? std::optional(day) : std::nullopt;
}

std::string day_in_words(const std::chrono::year_month_day& day) {
    constexpr std::array kMonths{"January", "February", "March",     "April",   "May",      "June",
                                 "July",    "August",   "September", "October", "November", "December"};
    return fmt::format("{} {} {}", static_cast<unsigned>(day.day()),
                       kMonths[static_cast<unsigned>(day.month()) - 1], static_cast<int>(day.year()));
}

std::chrono::year_month_day today() {
    using namespace std::chrono;
    const char* said = std::getenv("SOURCE_DATE_EPOCH");
    if (!said) return floor<days>(system_clock::now());
    const std::optional<long long> since_1970 = number(said);
    constexpr long long kYear10000 = 253'402'300'800;
    if (!since_1970 || *since_1970 >= kYear10000)
        throw RequestError(
            fmt::format("SOURCE_DATE_EPOCH: found \"{}\", expected whole seconds since 1970", said));
    return floor<days>(sys_seconds(seconds(*since_1970)));
}

}  // namespace rakelight
