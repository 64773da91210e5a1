// `rakelight portfolio`: the pictures a finished work is shown by, and a proposal on paper.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/filter/filter.h"
#include "output/in_photograph/deliver.h"
#include "output/in_photograph/for_preview.h"
#include "output/in_photograph/section.h"
#include "output/portfolio/json.h"
#include "output/portfolio/mounted_print.h"
#include "output/portfolio/print_hash.h"
#include "output/portfolio/proposal.h"
#include "output/portfolio/room_exposure.h"
#include "output/portfolio/section.h"
#include "output/preview/deliver.h"
#include "output/preview/expected_time.h"
#include "output/preview/picture_notes.h"
#include "output/preview/printing.h"
#include "output/print/exposure.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/parse_options.h"
#include "output/program/read_and_warn.h"
#include "output/system/day.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/progress.h"
#include "output/system/safe_file.h"
#include "output/system/thread_limit.h"
#include "output/take_off/reckoning/section.h"
#include "renderer/render.h"
#include "scene/model/layout.h"
#include "scene/text/units.h"
#include "scene/world/mock_up.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct PortfolioRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string pieces;
    std::string into = kFinishedFolder;
    std::vector<std::string> show;
    int dpi = 0;
    int most_samples = 0;
    int threads = 0;
    std::string date;
    bool skip_finished = false;
    bool as_traced = false;
    bool json = false;
    bool quiet = false;
};

// What the command line says, else the layout, else the calendar.
std::string proposal_date(const std::string& option, const Caption& caption) {
    if (option == "none") return "";
    if (option.empty() && !caption.date.empty()) {
        const auto day = parse_day(caption.date);
        return day ? day_in_words(*day) : caption.date;
    }
    const auto day = option.empty() ? today() : parse_day(option);
    if (!day)
        throw RequestError("--date: found " + rakelight::quoted(option) +
                           ", expected a day such as 2026-11-27, or none");
    return day_in_words(*day);
}

Portfolio wanted_portfolio(const Layout& layout, const PortfolioRequest& request) {
    Portfolio p = read_portfolio(layout);
    if (request.dpi > 0) p.dpi = request.dpi;
    if (request.most_samples > 0) p.most_samples = request.most_samples;
    if (request.show.empty()) return p;
    p.show.clear();
    check_words("--show", request.show, kShotWords);
    for (const std::string& word : request.show) {
        const auto shot =
            static_cast<Shot>(std::find(kShotWords.begin(), kShotWords.end(), word) - kShotWords.begin());
        if (const std::string why = why_no_shot(shot, p, layout); !why.empty())
            throw RequestError("--show: " + why);
        if (std::find(p.show.begin(), p.show.end(), shot) == p.show.end()) p.show.push_back(shot);
    }
    return p;
}

// A world that some of the shots share, lit.
struct Stand {
    World world;
    Bvh bvh;
    explicit Stand(World w) : world(std::move(w)), bvh(world) {}
};

// Light reaches a room's corners by way of many walls.
constexpr float kRoomPatience = 4;

// The illuminance that a picture of the place is exposed for; 0 = as any other picture.
double exposed_for_room(const PictureNotes& notes, const Stand& stand, const PlannedShot& plan) {
    const double work = total_illuminance_xyz(notes).y;
    const WallLight wall = wall_light(stand.world, stand.bvh, plan.layout);
    return work > 0 && wall.mean_lux > 0 ? exposed_lux(wall, work) : 0;
}

RenderOptions options_of(const PlannedShot& plan, const PortfolioRequest& request) {
    RenderOptions options;
    options.threads = request.threads;
    options.lens = plan.lens;
    if (plan.in_room) options.patience = kRoomPatience;
    options.cancelled = interrupted;
    return options;
}

NotedFilm traced(const Stand& stand, const PlannedShot& plan, std::uint64_t hash,
                 const PortfolioRequest& request) {
    Progress progress(plan.picture.name, progress_kind(stderr, request.quiet));
    RenderOptions options = options_of(plan, request);
    options.progress = [&](double share) { progress.show(share); };
    NotedFilm noted;
    noted.notes = notes_of(plan.layout, stand.world, stand.bvh, plan.picture, hash);
    options.card_cd_per_m2 = card_cd_per_m2(noted.notes);
    if (const double lux = plan.in_room ? exposed_for_room(noted.notes, stand, plan) : 0; lux > 0) {
        const double card = card_luminance_cd_per_m2(lux);
        options.card_cd_per_m2 = card;
        noted.notes.ev = ev100_of(card);
    }
    noted.film = render(stand.world, stand.bvh, plan.layout, plan.picture, options);
    return noted;
}

ProposalPanel panel_of(const Layout& layout, const Laying& laying) {
    return {&layout, panel_facts(layout, laying, read_workshop(layout)),
            report_laying(layout, laying, kProgram, 0)};
}

// The print in the 8 bits of a PNG, so that one that is read back from there is the same.
Print in_eight_bits(Print print) {
    for (float& value : print.rgb) value = std::round(std::clamp(value, 0.0f, 1.0f) * 255) / 255;
    return print;
}

// Makes prints one by one and keeps what the proposal and the JSON want of them.
class Darkroom {
  public:
    Darkroom(const PortfolioRequest& request, FinishedFiles& files, std::uint64_t panel, std::size_t shots,
             Proposal& proposal)
        : request_(request), files_(files), panel_(panel), proposal_(proposal), prints_(shots) {
        proposal_.pictures.resize(shots);
    }

    /// Takes a finished picture from the folder, if that is wanted and there is one of the same scene.
    bool keep(std::size_t i, const PlannedShot& plan) {
        if (!request_.skip_finished) return false;
        const fs::path path = files_.folder() / file_of(plan);
        if (is_damaged(path)) return false;
        std::optional<Print> print =
            picture_of_print(path, plan.picture.width_px, plan.picture.height_px, hash_of(plan));
        if (!print) return false;
        fmt::print("{} kept\n", path.string());
        remember(i, plan, std::make_shared<const Print>(std::move(*print)));
        return true;
    }

    void make(std::size_t i, const PlannedShot& plan, const Stand& stand) {
        const NotedFilm noted = traced(stand, plan, hash_of(plan), request_);
        const bool calm = !request_.as_traced && can_be_filtered(noted.film);
        const auto print = std::make_shared<const Print>(
            in_eight_bits(develop(calm ? filtered(noted.film) : noted.film, developing_for(noted, true))));
        const std::string caption = fmt::format("{}. {}", proposal_.panels[0].facts.name, plan.title);
        const int dpi = proposal_.portfolio.dpi;
        files_.picture(file_of(plan), mounted(*print, caption, dpi / 25.4),
                       {{"Title", caption},
                        {"Description", kNotAPhotograph},
                        {"Software", kProgram},
                        {kFilterKey, filter_words(calm)},
                        {"Scene hash", hash_digits(noted.notes.scene_hash)}},
                       dpi);
        remember(i, plan, print);
    }

    const std::vector<PortfolioPrint>& prints() const { return prints_; }

  private:
    // Whether the last portfolio in the folder says so; told.
    bool is_damaged(const fs::path& print) const {
        const fs::path last = files_.folder() / "portfolio.json";
        if (!fs::is_regular_file(last)) return false;
        for (const Damage& found : damage(last, false))
            if (found.file == print || found.file == last) {
                fmt::print(stderr, "Note: {}\n", found.what);
                return true;
            }
        return false;
    }

    static std::string file_of(const PlannedShot& plan) { return fmt::format("portfolio-{}.png", plan.name); }

    std::uint64_t hash_of(const PlannedShot& plan) const {
        constexpr std::uint64_t kTraced = 0x7261636564;  // pictures of the two kinds are not one another's
        return print_hash(panel_, kProgram, plan, proposal_.portfolio) ^ (request_.as_traced ? kTraced : 0);
    }

    void remember(std::size_t i, const PlannedShot& plan, std::shared_ptr<const Print> print) {
        proposal_.pictures[i] = {plan.shot, plan.title, plan.note, std::move(print)};
        prints_[i] = {plan, file_of(plan), hash_of(plan)};
    }

    const PortfolioRequest& request_;
    FinishedFiles& files_;
    std::uint64_t panel_;
    Proposal& proposal_;
    std::vector<PortfolioPrint> prints_;
};

Stand stand_for(const PlannedShot& shot, const Laying& laying, const Portfolio& portfolio) {
    return Stand(shot.in_room ? build_mock_up(shot.layout, laying, {portfolio.scale_figures, true})
                              : build_world(shot.layout, laying));
}

using OnStand = std::function<void(std::size_t shot, const Stand& stand)>;

// Does `work` for each shot that is not done. Shots that share a light come one after another, so that only
// one world is kept at a time.
void stand_by_stand(const std::vector<PlannedShot>& shots, std::vector<bool> done, const Laying& laying,
                    const Portfolio& portfolio, const OnStand& work) {
    for (std::size_t first = 0; first < shots.size(); ++first) {
        if (done[first]) continue;
        const PlannedShot& lead = shots[first];
        const Stand stand = stand_for(lead, laying, portfolio);
        for (std::size_t i = first; i < shots.size(); ++i) {
            if (done[i] || shots[i].light != lead.light || shots[i].in_room != lead.in_room) continue;
            stop_if_interrupted();
            work(i, stand);
            done[i] = true;
        }
    }
}

// Worth its while where the prints take minutes.
bool is_long(const std::vector<PlannedShot>& shots, const std::vector<bool>& done) {
    constexpr double kLong_paths = 100e6;
    double paths = 0;
    for (std::size_t i = 0; i < shots.size(); ++i)
        if (!done[i])
            paths += static_cast<double>(shots[i].picture.width_px) * shots[i].picture.height_px *
                     shots[i].picture.most_samples;
    return paths >= kLong_paths;
}

void make_prints(const std::vector<PlannedShot>& shots, const Laying& laying, const Portfolio& portfolio,
                 const PortfolioRequest& request, Darkroom& darkroom) {
    std::vector<bool> done;
    for (std::size_t i = 0; i < shots.size(); ++i) done.push_back(darkroom.keep(i, shots[i]));
    if (!request.quiet && is_long(shots, done)) {
        double expected_s = 0;
        stand_by_stand(shots, done, laying, portfolio, [&](std::size_t i, const Stand& stand) {
            expected_s += expected_seconds(stand.world, stand.bvh, shots[i].layout, shots[i].picture,
                                           options_of(shots[i], request));
        });
        fmt::print(stderr, "{}{} prints: about {}\n", kTracing, std::ranges::count(done, false),
                   spoken_seconds(expected_s));
    }
    stand_by_stand(shots, done, laying, portfolio,
                   [&](std::size_t i, const Stand& stand) { darkroom.make(i, shots[i], stand); });
}

// Prints in photographs of the wall; finished ones of the same scene are taken from the folder where that is
// wanted.
std::vector<PrintInPhotographs> set_in(const std::vector<TakenPhotograph>& taken, const Layout& layout,
                                       const Laying& laying, Proposal& proposal, FinishedFiles& files,
                                       const PortfolioRequest& request) {
    std::vector<PrintInPhotographs> prints;
    const std::uint64_t sources = panel_hash(layout);
    const int dpi = proposal.portfolio.dpi;
    for (const TakenPhotograph& photograph : taken) {
        stop_if_interrupted();
        const std::string& name = photograph.said.name;
        PrintInPhotographs about{name, fmt::format("portfolio-in-{}.png", file_stem(name)),
                                 photograph.size_px, hash_in_photograph(photograph, sources)};
        std::optional<Print> print;
        if (request.skip_finished)
            print = picture_of_print(files.folder() / about.file, about.size_px.x, about.size_px.y,
                                     about.scene_hash);
        if (print) {
            fmt::print("{} kept\n", (files.folder() / about.file).string());
        } else {
            print = set_into_photograph(photograph, layout, laying, request.threads, request.quiet).print;
            const std::string caption = fmt::format("{}. {}", proposal.panels[0].facts.name, name);
            files.picture(about.file, mounted(*print, caption, dpi / 25.4, kSetIntoAPhotograph),
                          {{"Title", caption},
                           {"Description", kSetIntoAPhotograph},
                           {"Software", kProgram},
                           {"Scene hash", hash_digits(about.scene_hash)}},
                          dpi);
        }
        proposal.in_photographs.push_back(
            {Shot::in_place, name, "", std::make_shared<const Print>(std::move(*print))});
        prints.push_back(std::move(about));
    }
    return prints;
}

void portfolio(const PortfolioRequest& request) {
    const ThreadLimit limit(request.threads);
    const Layout layout = read_and_warn(request.file, request.pieces, request.changes);
    Proposal proposal;
    proposal.portfolio = wanted_portfolio(layout, request);
    proposal.program = kProgram;
    proposal.date = proposal_date(request.date, proposal.portfolio.caption);
    const std::vector<PlannedShot> shots = plan_portfolio(layout, proposal.portfolio);
    const std::vector<TakenPhotograph> taken = request.show.empty()
                                                   ? open_photographs(layout, wall_photograph_names(layout))
                                                   : std::vector<TakenPhotograph>{};
    FinishedFiles files(finished_folder(request.into, request.file, request.changes));

    const Laying laying = lay_and_warn(layout);
    proposal.panels.push_back(panel_of(layout, laying));
    if (layout.beside)
        proposal.panels.push_back(panel_of(*layout.beside->layout, lay(*layout.beside->layout)));
    stop_if_interrupted();

    Darkroom darkroom(request, files, panel_hash(layout), shots.size(), proposal);
    make_prints(shots, laying, proposal.portfolio, request, darkroom);
    const std::vector<PrintInPhotographs> in_photographs =
        set_in(taken, layout, laying, proposal, files, request);
    std::vector<std::string> names;
    for (const PortfolioPrint& print : darkroom.prints()) names.push_back(print.file);
    for (const PrintInPhotographs& print : in_photographs) names.push_back(print.file);
    names.push_back("proposal.pdf");
    const Caption& caption = proposal.portfolio.caption;
    files.add(names.back(), [&](const fs::path& path) {
        write_pdf(path, proposal_pages(proposal), caption.title, caption.artist, kProgram);
    });
    const std::string json = files.record(
        "portfolio.json",
        portfolio_json(proposal, darkroom.prints(), in_photographs, made_from(layout, kProgram), names));
    if (request.json) fmt::print("{}", json);
}

}  // namespace

void add_portfolio(CLI::App& app) {
    auto* command =
        app.add_subcommand("portfolio", "Make the prints a work is shown by, and a proposal as PDF");
    const auto r = std::make_shared<PortfolioRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    command
        ->add_option("--show", r->show,
                     "Only these pictures of the set: " + fmt::format("{}", fmt::join(kShotWords, ", ")))
        ->type_name("WHAT,..")
        ->delimiter(',');
    add_into(*command, r->into);
    add_pieces(*command, r->pieces);
    command
        ->add_option("--dpi", r->dpi,
                     "Fineness of the prints instead of the layout's; 60 makes a quick draft")
        ->check(CLI::Range(36, 1200));
    command
        ->add_option("--most-samples", r->most_samples,
                     "At most this many samples a pixel, instead of the layout's")
        ->check(CLI::Range(1, 1 << 16));
    command
        ->add_option("--date", r->date,
                     "Day of the proposal instead of the layout's or today's (which SOURCE_DATE_EPOCH sets); "
                     "none leaves it out")
        ->type_name("YYYY-MM-DD");
    add_threads(*command, r->threads);
    add_json(*command, r->json, "portfolio.json");
    command->add_flag("--skip-finished", r->skip_finished,
                      "Leave out pictures of this very scene that are finished: for when only words changed");
    command->add_flag("--as-traced", r->as_traced, kAsTracedHelp);
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Writes portfolio-NAME.png for each picture (sRGB, at print size), proposal.pdf (cover, pictures, "
        "materials,\n"
        "sizes, weight) and portfolio.json. What is shown, what gives scale and what captions say stands in "
        "the\n"
        "layout's section `portfolio`.\n\n"
        "Examples:\n"
        "  rakelight portfolio tide.yaml --dpi 60\n"
        "  rakelight portfolio tide.yaml --show straight,details");
    command->callback([r] { portfolio(*r); });
}

}  // namespace rakelight
