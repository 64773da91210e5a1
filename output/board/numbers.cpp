#include "output/board/numbers.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "output/print/eye_blur.h"

namespace rakelight {

namespace {

Xyz xyz_of(const glm::dvec3& v) {
    return {v.x, v.y, v.z};
}

Lab lab_of(const glm::dvec3& v, const Xyz& white) {
    return xyz_to_lab(xyz_of(v), white);
}

glm::dvec3 sum_of(const std::vector<glm::dvec3>& groups) {
    return std::accumulate(groups.begin(), groups.end(), glm::dvec3(0));
}

const SeenLight& light_of(const CellLight& cell, Seen kind) {
    return cell.seen[static_cast<std::size_t>(kind)];
}

// Distances at which a net is looked at: 2 m and 6 m, then a ladder to find where it fades.
constexpr std::array kStations_m{2.0, 6.0};
constexpr int kRungs = 20;
double rung_m(int rung) {
    constexpr double kNearest_m = 0.25;
    return kNearest_m * std::pow(kFarthest_m / kNearest_m, rung / (kRungs - 1.0));
}

// What an eye mixes into the pieces, and into the joints. The mean over a mask of what the eye mixes is the
// mean of the light weighted by the mixed mask, since mixing is symmetric: one mixing serves all cells that
// show the same.
struct Masks {
    std::vector<float> pieces, joints;
    double piece_sum = 0, joint_sum = 0;
};

Masks masks_of(const CellLight& cell) {
    Masks m;
    const std::size_t n = cell.film->pixel_count();
    m.pieces.resize(n);
    m.joints.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
        const Seen kind = (*cell.of_pixels)[i];
        m.pieces[i] = kind == Seen::piece || kind == Seen::glass ? 1.0f : 0.0f;
        m.joints[i] = kind == Seen::joint ? 1.0f : 0.0f;
        m.piece_sum += m.pieces[i];
        m.joint_sum += m.joints[i];
    }
    return m;
}

SeenAt see(const CellLight& cell, const Masks& masks, double distance_m) {
    const Film& film = *cell.film;
    glm::dvec3 pieces(0), joints(0);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const glm::dvec3 xyz(film.xyz[0][i]);
        pieces += double(masks.pieces[i]) * xyz;
        joints += double(masks.joints[i]) * xyz;
    }
    SeenAt at;
    at.distance_m = distance_m;
    if (masks.piece_sum > 0) at.pieces = lab_of(pieces / masks.piece_sum, cell.white);
    if (masks.joint_sum > 0) at.joints = lab_of(joints / masks.joint_sum, cell.white);
    if (masks.piece_sum > 0 && masks.joint_sum > 0) at.ciede2000 = ciede2000(at.pieces, at.joints);
    return at;
}

bool show_the_same(const CellLight& a, const CellLight& b) {
    return a.of_pixels == b.of_pixels || (a.film->width == b.film->width &&
                                          a.film->height == b.film->height && *a.of_pixels == *b.of_pixels);
}

// Where the last rung above the threshold gives way to the one below, between them by their differences.
double fading_distance_m(const std::vector<double>& rungs) {
    int last = -1;
    for (int r = 0; r < kRungs; ++r)
        if (rungs[static_cast<std::size_t>(r)] >= kNetFades) last = r;
    if (last < 0) return 0;
    if (last == kRungs - 1) return kFarthest_m;
    const double above = rungs[static_cast<std::size_t>(last)],
                 below = rungs[static_cast<std::size_t>(last) + 1];
    const double part = (above - kNetFades) / (above - below);
    return rung_m(last) * std::pow(rung_m(last + 1) / rung_m(last), part);
}

// For each cell what an eye sees at the stations and on the rungs.
void look_from_afar(std::span<const CellLight> cells, std::span<CellNumbers> numbers) {
    std::vector<char> done(cells.size(), 0);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (done[i]) continue;
        std::vector<std::size_t> same;
        for (std::size_t k = i; k < cells.size(); ++k)
            if (!done[k] && show_the_same(cells[i], cells[k])) same.push_back(k), done[k] = 1;
        const Masks sharp = masks_of(cells[i]);
        std::vector<std::vector<double>> rungs(same.size());
        const auto look = [&](double distance_m, auto&& keep) {
            const Film& film = *cells[i].film;
            Masks mixed = sharp;
            mixed.pieces = seen_from(sharp.pieces, film.width, film.height, cells[i].mm_per_px, distance_m);
            mixed.joints = seen_from(sharp.joints, film.width, film.height, cells[i].mm_per_px, distance_m);
            std::vector<SeenAt> seen(same.size());
            tbb::parallel_for(std::size_t{0}, same.size(),
                              [&](std::size_t k) { seen[k] = see(cells[same[k]], mixed, distance_m); });
            for (std::size_t k = 0; k < same.size(); ++k) keep(k, seen[k]);
        };
        for (const double station_m : kStations_m)
            look(station_m, [&](std::size_t k, const SeenAt& s) { numbers[same[k]].seen_at.push_back(s); });
        for (int r = 0; r < kRungs; ++r)
            look(rung_m(r), [&](std::size_t k, const SeenAt& s) { rungs[k].push_back(s.ciede2000); });
        for (std::size_t k = 0; k < same.size(); ++k)
            if (numbers[same[k]].joint) numbers[same[k]].net_fades_m = fading_distance_m(rungs[k]);
    }
}

// The smaller the better.
double score(BoardAim aim, const CellNumbers& n) {
    switch (aim) {
        case BoardAim::none:
            break;
        case BoardAim::blend:
            return n.contrast;
        case BoardAim::show_flow:
            return -std::abs(n.delta_l);
        case BoardAim::deepen_colour:
            return -saturation(n.glass ? *n.glass : n.piece);
    }
    return 0;
}

}  // namespace

double chroma(const Lab& lab) {
    return std::hypot(lab.a, lab.b);
}

double saturation(const Lab& lab) {
    const double whole = std::hypot(chroma(lab), lab.l);
    return whole > 0 ? 100 * chroma(lab) / whole : 0;
}

namespace {

CellNumbers count_cell(const CellLight& cell) {
    CellNumbers n;
    const SeenLight &glass = light_of(cell, Seen::glass), &stuff = light_of(cell, Seen::piece),
                    &joint = light_of(cell, Seen::joint);
    if (const double share = glass.share + stuff.share; share > 0)
        n.piece = lab_of((glass.share * sum_of(glass.by_body) + stuff.share * sum_of(stuff.by_body)) / share,
                         cell.white);
    if (glass.share > 0) n.glass = lab_of(sum_of(glass.by_body), cell.white);
    const double in_all = glass.share + stuff.share + joint.share;
    n.joint_share = in_all > 0 ? joint.share / in_all : 0;
    n.joint_mm = cell.joint_mm;
    if (joint.share > 0) {
        n.joint = lab_of(sum_of(joint.by_body), cell.white);
        n.delta_l = n.joint->l - n.piece.l;
        n.contrast = ciede2000(*n.joint, n.piece);
        n.resolves_to_m = resolve_distance_m(cell.joint_mm);
        n.line_to_m = n.resolves_to_m / 3;
    }
    glm::dvec3 mean(0);
    for (const SeenLight& kind : cell.seen)
        if (kind.share > 0) mean += kind.share * sum_of(kind.xyz);
    n.mean_xyz = xyz_of(mean);
    n.mean = lab_of(mean, cell.white);
    return n;
}

}  // namespace

std::vector<CellNumbers> count_cells(std::span<const CellLight> cells) {
    std::vector<CellNumbers> numbers;
    for (const CellLight& cell : cells) numbers.push_back(count_cell(cell));
    look_from_afar(cells, numbers);
    return numbers;
}

void compare_cells(const BoardPlan& plan, std::span<CellNumbers> cells) {
    if (cells.size() != plan.cells()) throw std::invalid_argument("cells that are not those of the board");
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const CellNumbers &here = cells[i], &there = cells[plan.reference_of(i)];
        const bool of_glass = here.glass && there.glass;
        const Lab &own = of_glass ? *here.glass : here.piece,
                  &reference = of_glass ? *there.glass : there.piece;
        cells[i].shift_l = own.l - reference.l;
        cells[i].shift_c = chroma(own) - chroma(reference);
        cells[i].shift_saturation = saturation(own) - saturation(reference);
        cells[i].shift_ciede2000 = ciede2000(own, reference);
    }
    if (plan.aim == BoardAim::none) return;
    // Where lamps differ by rows, a grout is chosen within a row: each row has its own ranks.
    const std::size_t line = plan.columns.size() > 1 ? plan.columns.size() : cells.size();
    for (std::size_t first = 0; first < cells.size(); first += line) {
        std::vector<std::size_t> order(line);
        std::iota(order.begin(), order.end(), first);
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return score(plan.aim, cells[a]) < score(plan.aim, cells[b]);
        });
        for (std::size_t r = 0; r < order.size(); ++r) cells[order[r]].rank = static_cast<int>(r) + 1;
    }
}

}  // namespace rakelight
