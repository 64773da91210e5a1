// The page of a proposal that says what a panel is made of.
#include <fmt/format.h>

#include <map>

#include "output/portfolio/proposal_page.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kChip_mm = 9, kRow_mm = 12.2, kColumn_mm = 86, kTop_mm = kProposalTop_mm + 14;
constexpr double kGrout_mm = kProposalMargin_mm + 2 * kColumn_mm;  // column of the grouts
constexpr std::size_t kRows = 11;                                  // of a column
constexpr std::size_t kGroutRows = 8;                              // over the words at its foot

EncodedSrgb colour_of(const Rgb8& c) {
    return {c[0] / 255.0, c[1] / 255.0, c[2] / 255.0};
}

// As first laid: over its bed, face-on.
std::map<std::uint32_t, Rgb8> colours_as_laid(const ProposalPanel& panel, const Laying& laying) {
    std::map<std::uint32_t, Rgb8> colours;
    for (std::size_t i = 0; i < laying.stones.size(); ++i)
        colours.try_emplace(laying.stones[i].material, panel.laid.stone_colour[i]);
    for (std::size_t i = 0; i < laying.pieces.size(); ++i)
        colours.try_emplace(laying.pieces[i].material, panel.laid.piece_colour[i]);
    return colours;
}

void chip(Page& page, const glm::dvec2& at, const EncodedSrgb& colour) {
    page.boxes.push_back({at, {kChip_mm, kChip_mm}, colour});
}

// A chip of colour and two lines beside it.
void entry(Page& page, const glm::dvec2& at, const EncodedSrgb* colour, const std::string& name,
           const std::string& note, double wide) {
    if (colour) chip(page, at, *colour);
    const double words = wide - kChip_mm - 8;
    const glm::dvec2 beside = at + glm::dvec2(kChip_mm + 4, 3.9);
    page.texts.push_back(fitted({name, beside, 3.0, true, Align::left, kProposalInk}, words));
    page.texts.push_back(
        fitted({note, beside + glm::dvec2(0, 4.3), 2.5, false, Align::left, kProposalGrey}, words));
}

std::string spaced(std::string name) {
    std::replace(name.begin(), name.end(), '-', ' ');
    return name;
}

const char* kind_word(Kind kind) {
    switch (kind) {
        case Kind::glass:
            return "glass";
        case Kind::stone:
            return "stone";
        case Kind::slag:
            return "slag";
        case Kind::cement:
            return "cement";
        case Kind::epoxy:
            return "epoxy";
        case Kind::timber:
            return "timber";
        case Kind::paint:
            break;
    }
    return "";
}

void write_materials(Page& page, const ProposalPanel& panel, std::span<const LaidCount> laid_here,
                     const std::map<std::uint32_t, Rgb8>& colours) {
    for (std::size_t i = 0; i < laid_here.size(); ++i) {
        const LaidCount& laid = laid_here[i];
        const Material& m = panel.layout->stock[laid.material];
        const glm::dvec2 at(kProposalMargin_mm + static_cast<double>(i / kRows) * kColumn_mm,
                            kTop_mm + static_cast<double>(i % kRows) * kRow_mm);
        const auto found = colours.find(laid.material);
        const EncodedSrgb colour = found == colours.end() ? EncodedSrgb{} : colour_of(found->second);
        const std::string kind = kind_word(m.kind), name = spaced(m.name);
        entry(page, at, found == colours.end() ? nullptr : &colour, name,
              fmt::format("{}{}{} piece{}, {:.1f} % of the face, {:.2f} kg", name == kind ? "" : kind,
                          name == kind ? "" : ", ", laid.count, laid.count == 1 ? "" : "s",
                          100 * laid.area_mm2 / panel.laid.panel_mm2, laid.mass_g / 1000),
              kColumn_mm);
    }
}

// The first field of each zone that is grouted.
std::vector<std::size_t> grouted_zones(const Layout& layout) {
    std::vector<std::size_t> first;
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const auto same = [&](std::size_t other) {
            return layout.fields[other].zone == layout.fields[f].zone;
        };
        if (layout.fields[f].grout && std::none_of(first.begin(), first.end(), same)) first.push_back(f);
    }
    return first;
}

// Grout by zone, as laid. Returns where the next would stand.
double write_grouts(Page& page, const ProposalPanel& panel, std::span<const std::size_t> fields) {
    double y = kTop_mm;
    for (const std::size_t f : fields) {
        const Field& field = panel.layout->fields[f];
        const EncodedSrgb colour = colour_of(panel.laid.joint_colour[f]);
        entry(page, {kGrout_mm, y}, &colour, "Grout: " + spaced(field.zone),
              "tint " + spaced(panel.layout->tints[*field.grout].name) + ", over bed " +
                  spaced(panel.layout->tints[field.bed].name),
              kProposalPage_mm.x - kProposalMargin_mm - kGrout_mm + 4);
        y += kRow_mm;
    }
    return y;
}

void write_counts(Page& page, const ProposalPanel& panel, double y) {
    const double wide = kProposalPage_mm.x - kProposalMargin_mm - kGrout_mm;
    y = write_lines(page,
                    fmt::format("{} pieces and {} stones are laid; joints are {:.0f} % of the face.",
                                panel.laid.facts.size() - panel.laid.stone_count, panel.laid.stone_count,
                                100 * panel.laid.joint_share()),
                    {kGrout_mm, y + 7}, wide, 2.7, kProposalInk);
    write_lines(
        page,
        "Colours are face-on in daylight (D65), glass over its bed, grout cured and dry. Glass and pigment "
        "vary from batch to batch: samples decide.",
        {kGrout_mm, y + 3}, wide, 2.5, kProposalGrey);
}

// The `page`th share of what is listed, so many a page.
template <class T>
std::span<const T> share_of(const std::vector<T>& all, std::size_t page, std::size_t each) {
    const std::size_t from = std::min(page * each, all.size());
    return std::span(all).subspan(from, std::min(each, all.size() - from));
}

}  // namespace

std::vector<PdfPage> materials_pages(const ProposalPanel& panel) {
    const std::map<std::uint32_t, Rgb8> colours = colours_as_laid(panel, lay(*panel.layout));
    const std::vector<std::size_t> zones = grouted_zones(*panel.layout);
    const auto pages_for = [](std::size_t count, std::size_t each) { return (count + each - 1) / each; };
    const std::size_t count = std::max({pages_for(panel.laid.materials.size(), 2 * kRows),
                                        pages_for(zones.size(), kGroutRows), std::size_t{1}});
    std::vector<PdfPage> pages(count, blank_page());
    for (std::size_t i = 0; i < count; ++i) {
        Page& page = pages[i].page;
        write_heading(page, fmt::format("Materials of {}{}", panel.facts.name, i > 0 ? ", continued" : ""));
        write_materials(page, panel, share_of(panel.laid.materials, i, 2 * kRows), colours);
        const double y = write_grouts(page, panel, share_of(zones, i, kGroutRows));
        if (i + 1 == count) write_counts(page, panel, y);
    }
    return pages;
}

}  // namespace rakelight
