#include "materials/stock/match.h"

#include <nlopt.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <new>
#include <numeric>
#include <span>
#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"

namespace rakelight {
namespace {

constexpr double kAnotherPigment = 0.05;  // CIEDE2000
constexpr double kNear2 = 1e-5;           // CIEDE2000 squared at which a search stops

Xyz xyz_of_array(const std::array<float, 3>& a) {
    return {a[0], a[1], a[2]};
}

/// A lamp, and what is wanted under it.
struct Judge {
    std::string light;
    TristimulusWeights weights;
    Xyz white;
    Lab wanted;

    Judge(const std::string& name, const Wanted& target) : light(name) {
        const auto spectrum = find_illuminant(name);
        if (!spectrum) throw std::invalid_argument("no illuminant is called " + name);
        weights = tristimulus_weights(*spectrum);
        white = xyz_of_array(integrate(weights, SampledSpectrum(1)));
        wanted = target.curve ? lab_of(*target.curve) : target.lab;
    }
    Lab lab_of(const SampledSpectrum& reflectance) const {
        return xyz_to_lab(xyz_of_array(integrate(weights, reflectance)), white);
    }
    double delta_e(const Recipe& recipe) const { return ciede2000(lab_of(seen_reflectance(recipe)), wanted); }
};

/// The search over the doses of one set. Its unknowns are square roots of shares: even steps of them are
/// about even steps of colour.
struct Search {
    const Judge& judge;
    Recipe recipe;  // doses are set anew at each step

    double difference2(std::span<const double> root) {
        for (std::size_t i = 0; i < root.size(); ++i) recipe.doses[i].share = root[i] * root[i];
        const double e = judge.delta_e(recipe);
        return e * e;
    }
    void run();
};

double objective(unsigned n, const double* at, double* gradient, void* self) {
    Search& search = *static_cast<Search*>(self);
    std::vector<double> x(at, at + n);
    for (unsigned i = 0; gradient && i < n; ++i) {
        constexpr double kStep = 1e-4;  // reflectances are floats: smaller steps drown in their rounding
        const double up = at[i] + kStep, down = std::max(0.0, at[i] - kStep);
        x[i] = up;
        gradient[i] = search.difference2(x);
        x[i] = down;
        gradient[i] = (gradient[i] - search.difference2(x)) / (up - down);
        x[i] = at[i];
    }
    return search.difference2(x);
}

/// Above 0: more pigment in all than the limit.
double over_limit(unsigned n, const double* x, double* gradient, void* limit) {
    double total = -*static_cast<const double*>(limit);
    for (unsigned i = 0; i < n; ++i) {
        total += x[i] * x[i];
        if (gradient) gradient[i] = 2 * x[i];
    }
    return total;
}

void Search::run() {
    const auto n = static_cast<unsigned>(recipe.doses.size());
    double total = total_limit(recipe.base);
    std::vector<double> most(n), best(n, 0.0);
    for (unsigned i = 0; i < n; ++i) most[i] = std::sqrt(dose_limit(recipe.base, recipe.doses[i].pigment));
    const std::unique_ptr<nlopt_opt_s, decltype(&nlopt_destroy)> solver(nlopt_create(NLOPT_LD_SLSQP, n),
                                                                        nlopt_destroy);
    if (!solver) throw std::bad_alloc();
    nlopt_set_min_objective(solver.get(), objective, this);
    nlopt_set_lower_bounds1(solver.get(), 0);
    nlopt_set_upper_bounds(solver.get(), most.data());
    nlopt_add_inequality_constraint(solver.get(), over_limit, &total, 1e-9);
    nlopt_set_stopval(solver.get(), kNear2);
    nlopt_set_xtol_rel(solver.get(), 1e-5);
    nlopt_set_maxeval(solver.get(), 60);
    double least = difference2(best);
    for (const double start : {0.1, 0.3, 0.6}) {
        std::vector<double> x = most;
        for (double& root : x) root *= start / std::sqrt(n);
        double e = 0;
        // Whatever stops it, x is the best point it saw; only that is judged.
        nlopt_optimize(solver.get(), x.data(), &e);
        if (over_limit(n, x.data(), nullptr, &total) > 1e-7) continue;
        e = difference2(x);
        if (e < least) {
            least = e;
            best = x;
        }
        if (least <= kNear2) break;
    }
    difference2(best);  // leaves the doses in the recipe
}

/// On the steps of the scale, nothing over its limit; what cannot be weighed is left out.
void weigh(Match& m, const MatchRequest& request) {
    const Base& base = m.recipe.base;
    const double step = request.scale_g / (request.batch_g * base.binder_share);  // as a share of the binder
    const auto steps_within = [&](double share) { return std::floor(share / step + 1e-9); };
    std::vector<double> steps;
    double total = 0;
    for (const Dose& dose : m.recipe.doses) {
        steps.push_back(
            std::min(std::round(dose.share / step), steps_within(dose_limit(base, dose.pigment))));
        total += steps.back();
    }
    for (const double most = steps_within(total_limit(base)); total > most; --total)
        --*std::max_element(steps.begin(), steps.end());
    std::vector<Dose> kept;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (!(steps[i] > 0)) continue;
        kept.push_back(std::move(m.recipe.doses[i]));
        kept.back().share = steps[i] * step;
        m.grams.push_back(steps[i] * request.scale_g);
    }
    m.recipe.doses = std::move(kept);
}

double moved(const Judge& judge, const Lab& from, const Recipe& recipe) {
    return ciede2000(from, judge.lab_of(seen_reflectance(recipe)));
}

void try_weighing_errors(Match& m, const Judge& judge) {
    constexpr double kError = 0.05;
    const Lab right = judge.lab_of(seen_reflectance(m.recipe));
    const std::size_t n = m.recipe.doses.size();
    for (std::size_t i = 0; i < n; ++i) {
        double worst = 0;
        for (const double sign : {-1.0, 1.0}) {
            Recipe wrong = m.recipe;
            wrong.doses[i].share *= 1 + sign * kError;
            worst = std::max(worst, moved(judge, right, wrong));
        }
        m.moved_by_5_percent.push_back(worst);
    }
    for (unsigned signs = 0; signs < 1u << n; ++signs) {
        Recipe wrong = m.recipe;
        for (std::size_t i = 0; i < n; ++i) wrong.doses[i].share *= 1 + ((signs >> i & 1) ? kError : -kError);
        m.moved_at_worst = std::max(m.moved_at_worst, moved(judge, right, wrong));
    }
}

/// The recipe with one draw of each of its pigments.
Recipe with_draws(Recipe recipe, std::size_t number) {
    for (Dose& dose : recipe.doses) {
        const auto& draws = dose.pigment.draws;
        if (draws.empty()) continue;
        const PigmentDraw& draw = draws[number % draws.size()];
        dose.pigment.absorption_m2_per_g = draw.absorption_m2_per_g;
        dose.pigment.scattering_m2_per_g = draw.scattering_m2_per_g;
    }
    return recipe;
}

/// How far the grams and the colour move when the pigments are others that their curves allow.
void try_uncertain_curves(Match& m, const Judge& judge, const MatchRequest& request) {
    const std::size_t n = m.recipe.doses.size();
    m.grams_error.assign(n, 0);
    std::size_t count = 0;
    for (const Dose& dose : m.recipe.doses) count = std::max(count, dose.pigment.draws.size());
    if (count == 0) return;
    const double binder_g = request.batch_g * m.recipe.base.binder_share;
    std::vector<double> sums(n), squares(n);
    const Lab right = judge.lab_of(seen_reflectance(m.recipe));
    double moved2 = 0;
    for (std::size_t i = 0; i < count; ++i) {
        request.pause();
        Search search{judge, with_draws(m.recipe, i)};
        moved2 += std::pow(moved(judge, right, search.recipe), 2);
        search.run();
        for (std::size_t d = 0; d < n; ++d) {
            const double grams = search.recipe.doses[d].share * binder_g;
            sums[d] += grams, squares[d] += grams * grams;
        }
    }
    const auto of = static_cast<double>(count);
    for (std::size_t d = 0; d < n; ++d)
        m.grams_error[d] = std::sqrt(std::max(0.0, squares[d] / of - std::pow(sums[d] / of, 2)));
    m.colour_error = std::sqrt(moved2 / of);
}

/// Calls `use` with every set of at most `most` of `count` things, smaller sets first within each beginning.
template <class Use>
void for_each_set(std::size_t count, std::size_t most, std::vector<std::size_t>& chosen, Use&& use) {
    use(chosen);
    if (chosen.size() == most) return;
    for (std::size_t i = chosen.empty() ? 0 : chosen.back() + 1; i < count; ++i) {
        chosen.push_back(i);
        for_each_set(count, most, chosen, use);
        chosen.pop_back();
    }
}

double rank(const Match& m) {
    return m.delta_e + kAnotherPigment * static_cast<double>(m.recipe.doses.size());
}

/// Whether `m` only adds to `better`, which is no other way to the colour.
bool adds_to(const Match& m, const Match& better) {
    const auto &few = better.recipe.doses, &more = m.recipe.doses;
    if (few.empty()) return more.empty();
    return std::all_of(few.begin(), few.end(), [&](const Dose& a) {
        return std::any_of(more.begin(), more.end(),
                           [&](const Dose& b) { return a.pigment.name == b.pigment.name; });
    });
}

}  // namespace

Lab wanted_lab(const MatchRequest& request) {
    return Judge(request.light, request.wanted).wanted;
}

std::vector<Match> match(const MatchRequest& request, std::size_t count) {
    if (!(request.batch_g > 0 && request.scale_g > 0))
        throw std::invalid_argument("batch and scale must be above 0 g");
    if (request.most_pigments < 0 || request.most_pigments > 4)
        throw std::invalid_argument("at most 4 pigments can be looked for");
    Recipe bare = request.base;
    bare.doses.clear();
    check_recipe(bare);
    const Judge judge(request.light, request.wanted);

    std::vector<Match> all;
    std::vector<std::size_t> chosen;
    for_each_set(request.pigments.size(), static_cast<std::size_t>(request.most_pigments), chosen,
                 [&](const std::vector<std::size_t>& set) {
                     request.pause();
                     Search search{judge, bare};
                     for (const std::size_t i : set) search.recipe.doses.push_back({request.pigments[i], 0});
                     if (!set.empty()) search.run();
                     Match m;
                     m.recipe = std::move(search.recipe);
                     weigh(m, request);
                     m.delta_e = judge.delta_e(m.recipe);
                     all.push_back(std::move(m));
                 });
    // Sorted by number: the sort of GCC 12 keeps what it moves in a buffer not aligned for bands.
    std::vector<std::size_t> order(all.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return rank(all[a]) < rank(all[b]); });

    std::vector<Match> best;
    for (const std::size_t i : order) {
        if (best.size() == count) break;
        if (std::none_of(best.begin(), best.end(), [&](const Match& b) { return adds_to(all[i], b); }))
            best.push_back(std::move(all[i]));
    }
    std::vector<Judge> judges{judge};
    for (const char* light : {"A", "D65", "LED-B3"})
        if (request.light != light) judges.emplace_back(light, request.wanted);
    for (Match& m : best) {
        for (const Judge& each : judges)
            m.lamps.push_back({each.light, each.lab_of(seen_reflectance(m.recipe)), each.delta_e(m.recipe)});
        try_weighing_errors(m, judge);
        try_uncertain_curves(m, judge, request);
    }
    return best;
}

}  // namespace rakelight
