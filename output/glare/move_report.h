// What the search for a better arrangement found and what tracing made of it.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "output/glare/moving/also_tried.h"
#include "output/glare/moving/what_to_move.h"
#include "output/glare/report.h"

namespace rakelight {

/// An arrangement that was traced.
struct TracedMove {
    MoveChoice choice;
    std::vector<std::string> advice;  ///< sentences; empty = as it is
    std::string in_short;
    std::vector<std::string> keys;     ///< what the layout file then says
    std::vector<GlareReport> reports;  ///< by viewpoint
    double lux = 0;                    ///< on the panel, traced
    double worst() const;              ///< the greatest traced score
    /// Whether some viewer would still complain of the panel: a patch too large or a field veiled.
    bool complained_of() const;
};

struct MoveReport {
    std::string panel;
    std::string light;  ///< set-up of light; empty = the layout's own
    MoveSearch search;
    GlareTerms terms;
    double indirect_lux = 0;
    std::vector<std::string> viewpoints;
    std::vector<TracedMove> traced;  ///< as it is, then the finalists, fewest changes first
    std::size_t advised = 0;         ///< of `traced`; 0 = leave it as it is
    std::vector<TriedAlone> tried;   ///< reckoned, not traced
    std::string verdict;             ///< one sentence
};

/// The criterion of the ranking, in one sentence.
extern const char* const kMoveCriterion;

/// Chooses: the fewest changes that nobody complains of any more; else what glares least when traced. Sets
/// `advised` and `verdict`.
void advise(MoveReport& report);

nlohmann::ordered_json json_of(const MoveReport& report);

}  // namespace rakelight
