#include "scene/text/nearest_word.h"

#include <algorithm>
#include <vector>

namespace rakelight {
namespace {

constexpr size_t kLongestName = 64;

std::string plain(std::string_view word) {
    std::string result(word);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == '_' || c == ' ') c = '-';
    }
    return result;
}

/// The parts between hyphens in alphabetical order.
std::string sorted_parts(const std::string& word) {
    std::vector<std::string> parts(1);
    for (const char c : word) {
        if (c == '-')
            parts.emplace_back();
        else
            parts.back() += c;
    }
    std::sort(parts.begin(), parts.end());
    std::string result;
    for (const std::string& part : parts) result += part + '-';
    return result;
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
    std::vector<int> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
    for (size_t j = 0; j <= b.size(); ++j) row[j] = static_cast<int>(j);
    for (size_t i = 1; i <= a.size(); ++i) {
        before.swap(above);
        above.swap(row);
        row[0] = static_cast<int>(i);
        for (size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (a[i - 1] != b[j - 1])});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
    }
    return row[b.size()];
}

std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string> known) {
    if (word.size() > kLongestName) return std::nullopt;
    const std::string wanted = plain(word);
    const std::string* best = nullptr;
    int fewest = std::max(1, static_cast<int>(wanted.size()) / 3) + 1;
    for (const std::string& candidate : known) {
        if (candidate.size() > kLongestName) continue;
        const std::string name = plain(candidate);
        // Parts in another order count as one edit.
        const int edits = std::min(edit_distance(wanted, name),
                                   1 + edit_distance(sorted_parts(wanted), sorted_parts(name)));
        if (edits < fewest) {
            fewest = edits;
            best = &candidate;
        }
    }
    return best ? std::optional(*best) : std::nullopt;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> known) {
    const auto near = nearest_word(word, known);
    return near ? "; did you mean " + *near + "?" : "";
}

}  // namespace rakelight
