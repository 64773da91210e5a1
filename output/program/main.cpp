// The program. Exit codes: 0 done, 1 something unforeseen, 2 the layout, the command line or a file to be
// shown is wrong, 3 files could not be read or written, 130 stopped by Ctrl-C.
#include <fmt/format.h>

#include <new>

#include "output/program/commands.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "renderer/render.h"
#include "scene/text/diagnostics.h"

namespace {

int complain(int code, std::string_view what) {
    fmt::print(stderr, "{}\n", what);
    return code;
}

int run(CLI::App& app, int argc, char** argv) {
    try {
        app.parse(argc, argv);
        return 0;
    } catch (const CLI::ParseError& e) {
        return app.exit(e) == 0 ? 0 : 2;
    } catch (const rakelight::LayoutError& e) {
        return complain(2, e.what());
    } catch (const rakelight::RequestError& e) {
        return complain(2, e.what());
    } catch (const rakelight::OutputError& e) {
        return complain(3, e.what());
    } catch (const rakelight::Cancelled&) {
        return complain(130, "stopped");
    } catch (const rakelight::Interrupted&) {
        return complain(130, "stopped");
    } catch (const std::bad_alloc&) {
        return complain(1, "the machine has not enough memory for this picture");
    } catch (const std::exception& e) {
        return complain(1, fmt::format("stopped by something unforeseen: {}", e.what()));
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (!__builtin_cpu_supports("avx2") || !__builtin_cpu_supports("fma"))
        return complain(1, "this processor lacks AVX2 or FMA, which Rakelight is compiled for");
    rakelight::watch_for_interrupt();
    CLI::App app{"See a mosaic panel under its lamps before it is laid", "rakelight"};
    app.set_version_flag("--version", rakelight::kProgram);
    app.require_subcommand(1);
    app.footer("`rakelight COMMAND --help` tells more, with examples.");
    rakelight::add_batch(app);
    rakelight::add_all(app);
    rakelight::add_check(app);
    rakelight::add_preview(app);
    rakelight::add_board(app);
    rakelight::add_glare(app);
    rakelight::add_join(app);
    rakelight::add_keys(app);
    rakelight::add_lay(app);
    rakelight::add_match(app);
    rakelight::add_page(app);
    rakelight::add_portfolio(app);
    rakelight::add_stock(app);
    rakelight::add_takeoff(app);
    return run(app, argc, argv);
}
