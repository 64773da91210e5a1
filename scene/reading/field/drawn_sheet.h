// The drawing of a layout while its fields are read: who takes what. A name means a group or a path; a group
// means all in it, but what lies deeper and is asked for by a name of its own goes to that name. A closed
// path that is only to be followed stays an outline in its group as well.
#pragma once

#include <functional>
#include <string>
#include <unordered_map>
#include <vector>

#include "scene/model/drawing.h"

namespace rakelight {

class DrawnSheet {
  public:
    /// No drawing.
    DrawnSheet() = default;
    /// `asked`: the names that fields ask for as ground, or may; `followed`: those asked for as guides. Names
    /// that nothing is called are let be.
    DrawnSheet(Drawing drawing, const std::vector<std::string>& asked,
               const std::vector<std::string>& followed = {});
    /// A drawing that could not be read: problems told already, no more to come.
    static DrawnSheet broken();

    bool given() const { return given_; }
    bool is_broken() const { return broken_; }
    const Drawing& drawing() const { return drawing_; }

    /// Whether anything is called so, by label or, when nothing has that label, by id.
    bool knows(const std::string& name) const { return known_.contains(name); }
    /// The paths that go to a name that was asked for; they count as used from now on.
    std::vector<const DrawnPath*> take(const std::string& name);
    /// Of a scan, the paths of the region that holds a point, or of every region with a spot of this colour;
    /// they count as used from now on. `again`: set when one of them was taken before.
    std::vector<const DrawnPath*> take_region(const glm::dvec2& at_mm, bool& again);
    std::vector<const DrawnPath*> take_spotted(const std::string& ink, bool& again);
    /// Colours of the spots that there are.
    std::vector<std::string> spots() const;
    /// The names that what lies in a thing of this name goes to instead, as they ask for it.
    std::vector<std::string> takers_within(const std::string& name) const;
    /// Something to be told with `unused`.
    void tell(std::string warning) { told_.push_back(std::move(warning)); }
    /// All names in the order of the alphabet, the first thousands of them, for suggestions.
    const std::vector<std::string>& names() const { return names_; }
    /// What was told, then what nobody took, a warning each, by line.
    std::vector<std::string> unused() const;

  private:
    std::vector<const DrawnPath*> take_groups(const std::function<bool(const DrawnPath&)>& wanted,
                                              bool& again);

    Drawing drawing_;
    bool given_ = false, broken_ = false;
    std::unordered_map<std::string, int> known_;  // name to number; looked up only
    std::vector<int> owner_;                      // of each path: number of the name asked for, or -1
    std::vector<int> ground_owner_;               // likewise, of the nearest that asks for ground
    std::vector<std::string> asked_;              // by number
    std::vector<std::string> told_;
    std::vector<char> used_;
    std::vector<std::string> names_;
};

}  // namespace rakelight
