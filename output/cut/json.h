// The record of what is to be cut, for machines.
#pragma once

#include <string>
#include <vector>

#include "output/cut/spread.h"
#include "output/film/json_head.h"

namespace rakelight {

struct Layout;

struct CutPlan {
    double kerf_mm = 0;
    double apart_mm = 0;
    glm::dvec2 slab_mm{};
    std::vector<CutShape> shapes;
    std::vector<CutSlab> slabs;
    std::vector<std::string> slab_names;  ///< of the files of each slab, without ending
};

std::string cut_json(const Layout& layout, const CutPlan& plan, const MadeFrom& from,
                     const std::vector<std::string>& files);

}  // namespace rakelight
