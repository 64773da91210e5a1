#include "scene/flow/phase_relaxation.h"

#include <tbb/parallel_for.h>

#include <cmath>

namespace rakelight {

namespace {

// What one plane holds, a node of margin on every side; a link that is cut has no turn and so no weight.
struct Plane {
    int columns = 0, rows = 0;
    std::size_t stride = 0;
    std::vector<float> re, im, moves;  // moves: 0 where pinned
    struct Links {
        std::vector<float> re, im, sense;  // sense: -1 where the link flips
    };
    std::array<Links, 4> links;

    Plane(int columns_in, int rows_in)
        : columns(columns_in), rows(rows_in), stride(static_cast<std::size_t>(columns_in) + 2) {
        const std::size_t count = stride * (static_cast<std::size_t>(rows) + 2);
        for (auto* values : {&re, &im, &moves}) values->assign(count, 0);
        for (auto& link : links)
            for (auto* values : {&link.re, &link.im, &link.sense}) values->assign(count, 0);
    }
    std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y + 1) * stride + static_cast<std::size_t>(x + 1);
    }
};

using Planes = std::array<Plane, 4>;

Plane plane_of(const PhaseLattice& l, int odd_x, int odd_y) {
    Plane plane((l.columns + 1 - odd_x) / 2, (l.rows + 1 - odd_y) / 2);
    for (int y = 0; y < plane.rows; ++y)
        for (int x = 0; x < plane.columns; ++x) {
            const int column = 2 * x + odd_x, row = 2 * y + odd_y;
            const std::size_t from = static_cast<std::size_t>(row) * static_cast<std::size_t>(l.columns) +
                                     static_cast<std::size_t>(column);
            const std::size_t to = plane.at(x, y);
            plane.re[to] = l.phase[from].re;
            plane.im[to] = l.phase[from].im;
            plane.moves[to] = l.pinned[from] ? 0.0f : 1.0f;
            for (std::size_t k = 0; k < 4; ++k) {
                const PhaseLink& link = l.links[from][k];
                const int x1 = column + kHalfStar[k][0], y1 = row + kHalfStar[k][1];
                if (link.cut || x1 < 0 || x1 >= l.columns || y1 >= l.rows) continue;
                plane.links[k].re[to] = link.turn.re;
                plane.links[k].im[to] = link.turn.im;
                plane.links[k].sense[to] = link.flips ? -1.0f : 1.0f;
            }
        }
    return plane;
}

// A neighbour's phases and the links between, from the first node of a row on.
struct Ear {
    const float *re, *im, *turn_re, *turn_im, *sense;
};

void move_row(Planes& planes, int odd_x, int odd_y, int y, float beyond) {
    Plane& mine = planes[static_cast<std::size_t>(odd_x + 2 * odd_y)];
    std::array<Ear, 4> onward{}, back{};
    for (std::size_t k = 0; k < 4; ++k)
        for (const int way : {1, -1}) {
            const int x1 = odd_x + way * kHalfStar[k][0] + 2, y1 = odd_y + way * kHalfStar[k][1] + 2;
            const Plane& theirs = planes[static_cast<std::size_t>(x1 % 2 + 2 * (y1 % 2))];
            const std::size_t there = theirs.at(x1 / 2 - 1, y + y1 / 2 - 1);
            const Plane::Links& links = way > 0 ? mine.links[k] : theirs.links[k];
            const std::size_t held = way > 0 ? mine.at(0, y) : there;
            (way > 0 ? onward : back)[k] = {theirs.re.data() + there, theirs.im.data() + there,
                                            links.re.data() + held, links.im.data() + held,
                                            links.sense.data() + held};
        }
    float* const re = mine.re.data() + mine.at(0, y);
    float* const im = mine.im.data() + mine.at(0, y);
    const float* const moves = mine.moves.data() + mine.at(0, y);
    const int count = mine.columns;
#ifndef __clang__
#pragma GCC ivdep
#endif
    for (int x = 0; x < count; ++x) {
        float sum_re = 0, sum_im = 0;
        for (const Ear& e : onward) {  // theirs, flipped if need be, less the turn
            const float a = e.re[x], b = e.sense[x] * e.im[x];
            sum_re += a * e.turn_re[x] + b * e.turn_im[x];
            sum_im += b * e.turn_re[x] - a * e.turn_im[x];
        }
        for (const Ear& e : back) {  // theirs and the turn, then flipped if need be
            const float a = e.re[x], b = e.im[x];
            sum_re += a * e.turn_re[x] - b * e.turn_im[x];
            sum_im += e.sense[x] * (a * e.turn_im[x] + b * e.turn_re[x]);
        }
        const float length = std::sqrt(sum_re * sum_re + sum_im * sum_im);
        const bool heard = length > 1e-6f;
        const float to_re = heard ? sum_re / length : 1.0f, to_im = heard ? sum_im / length : 0.0f;
        const float share = beyond * moves[x];
        const float led_re = re[x] + share * (to_re - re[x]), led_im = im[x] + share * (to_im - im[x]);
        const float led = std::sqrt(led_re * led_re + led_im * led_im);
        const bool sound = led > 1e-6f;
        re[x] = sound ? led_re / led : to_re;
        im[x] = sound ? led_im / led : to_im;
    }
}

}  // namespace

void relax(PhaseLattice& lattice, int sweeps) {
    Planes planes{plane_of(lattice, 0, 0), plane_of(lattice, 1, 0), plane_of(lattice, 0, 1),
                  plane_of(lattice, 1, 1)};
    for (int sweep = 0; sweep < sweeps; ++sweep) {
        const float beyond = 2 * sweep < sweeps ? 1.0f : 1.75f;
        for (int odd_y = 0; odd_y < 2; ++odd_y)
            for (int odd_x = 0; odd_x < 2; ++odd_x)
                tbb::parallel_for(0, planes[static_cast<std::size_t>(odd_x + 2 * odd_y)].rows,
                                  [&](int y) { move_row(planes, odd_x, odd_y, y, beyond); });
    }
    for (int y = 0; y < lattice.rows; ++y)
        for (int x = 0; x < lattice.columns; ++x) {
            const Plane& plane = planes[static_cast<std::size_t>(x % 2 + 2 * (y % 2))];
            const std::size_t from = plane.at(x / 2, y / 2);
            lattice.phase[static_cast<std::size_t>(y) * static_cast<std::size_t>(lattice.columns) +
                          static_cast<std::size_t>(x)] = {plane.re[from], plane.im[from]};
        }
}

}  // namespace rakelight
