// A photograph of a plate of glass on a card by brute force: light walks at random through the slab, and at
// every scattering and on the card sends its share straight up to the camera. Nothing here comes from the
// program's layers but Fresnel's equations. Isotropic scattering with coefficient 4/3 S (Mudgett and Richards
// 1971, Appl. Opt. 10, 1485), smooth faces, matte cards.
#pragma once

#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "materials/optics/fresnel.h"
#include "materials/optics/plate.h"

namespace rakelight {

/// One glass in several bands that scatter alike.
struct WalkedPlate {
    double index = 1.52;
    double thickness_mm = 3;
    double scattering_per_mm = 0;              ///< Kubelka-Munk S
    std::vector<double> absorption_per_mm;     ///< by band
    std::array<std::vector<double>, 2> cards;  ///< reflectance by band of two cards
    Lying lying = Lying::dry;
    PhotographLight light = PhotographLight::at_45_deg;
};

class PlateWalk {
  public:
    PlateWalk(const WalkedPlate& plate, unsigned seed) : p_(plate), engine_(seed) {
        const double f = dielectric_reflectance(1.0, p_.index);
        scatter_ = 4. / 3 * p_.scattering_per_mm;
        for (const double a : p_.absorption_per_mm) {
            const double once = std::exp(-(a + scatter_) * p_.thickness_mm);
            const double leaves = (1 - f) / (dry() ? 1 - f * f * once * once : 1);
            rings_.push_back(leaves / (p_.index * p_.index));
            from_card_.push_back(dry() ? (1 - f) * leaves * once : rings_.back() * once);
        }
        lower_ = dry() ? f : 0;
        for (auto& each : seen_) each.resize(rings_.size());
    }

    /// Radiance factor over each card by band.
    std::array<std::vector<double>, 2> run(int photons) {
        for (int i = 0; i < photons; ++i) one();
        auto r = seen_;
        for (auto& card : r)
            for (double& x : card) x /= photons;
        return r;
    }

  private:
    bool dry() const { return p_.lying == Lying::dry; }
    double uniform() { return (engine_() + 0.5) * (1.0 / 4294967296.0); }
    double refracted(double cosine) const {
        return std::sqrt(1 - (1 - cosine * cosine) / (p_.index * p_.index));
    }

    void one() {
        const double outside = p_.light == PhotographLight::at_45_deg ? std::sqrt(0.5) : std::sqrt(uniform());
        weight_ = 1 - dielectric_reflectance(outside, p_.index);
        cosine_ = refracted(outside);
        depth_ = walked_ = 0;
        bounces_ = 0;
        while (weight_ > 0) {
            step();
            if (weight_ < 0.05) weight_ = uniform() < 0.2 ? weight_ * 5 : 0;
            if (walked_ > 500 * p_.thickness_mm || bounces_ > 60) weight_ = 0;
        }
    }

    void step() {
        const double free = scatter_ > 0 ? -std::log(uniform()) / scatter_ : INFINITY;
        const double edge = cosine_ > 0 ? (p_.thickness_mm - depth_) / cosine_ : -depth_ / cosine_;
        walked_ += std::min(free, edge);
        if (free < edge) {
            depth_ += cosine_ * free;
            from_within();
            cosine_ = 2 * uniform() - 1;
        } else if (cosine_ < 0) {
            depth_ = 0;
            weight_ *= dielectric_reflectance(-cosine_, 1 / p_.index);
            cosine_ = -cosine_;
        } else {
            depth_ = p_.thickness_mm;
            dry() ? meet_lower_face() : meet_card();
        }
    }

    void meet_lower_face() {
        if (uniform() < dielectric_reflectance(cosine_, 1 / p_.index)) {
            cosine_ = -cosine_;
            return;
        }
        double up = 0;
        do {  // between card and plate
            ++bounces_;
            at_card();
            up = std::sqrt(uniform());
        } while (uniform() < dielectric_reflectance(up, p_.index) && bounces_ < 60);
        cosine_ = -refracted(up);
    }

    void meet_card() {
        ++bounces_;
        at_card();
        cosine_ = -std::sqrt(uniform());
    }

    double card_power(std::size_t card, std::size_t b) const { return std::pow(p_.cards[card][b], bounces_); }

    void from_within() {
        const double up = std::exp(-scatter_ * depth_), d = 2 * p_.thickness_mm - depth_;
        const double down = lower_ * std::exp(-scatter_ * d);
        for (std::size_t b = 0; b < rings_.size(); ++b) {
            const double a = p_.absorption_per_mm[b];
            const double seen =
                0.25 * weight_ * rings_[b] *
                (up * std::exp(-a * (walked_ + depth_)) + down * std::exp(-a * (walked_ + d)));
            for (std::size_t card = 0; card < 2; ++card)
                seen_[card][b] += bounces_ ? seen * card_power(card, b) : seen;
        }
    }

    void at_card() {
        for (std::size_t b = 0; b < rings_.size(); ++b) {
            const double seen = weight_ * from_card_[b] * std::exp(-p_.absorption_per_mm[b] * walked_);
            for (std::size_t card = 0; card < 2; ++card) seen_[card][b] += seen * card_power(card, b);
        }
    }

    WalkedPlate p_;
    std::mt19937 engine_;
    double scatter_ = 0, lower_ = 0;
    std::vector<double> rings_, from_card_;
    std::array<std::vector<double>, 2> seen_;
    double weight_ = 0, cosine_ = 0, depth_ = 0, walked_ = 0;
    int bounces_ = 0;
};

}  // namespace rakelight
