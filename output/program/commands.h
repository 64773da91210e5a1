// The commands of the program, one file each. Every command adds itself to the command line; its callback
// does the work and throws LayoutError, RequestError, OutputError or Interrupted.
#pragma once

#include <CLI/CLI.hpp>

namespace rakelight {

void add_batch(CLI::App& app);
void add_board(CLI::App& app);
void add_all(CLI::App& app);
void add_check(CLI::App& app);
void add_compare(CLI::App& app);
void add_completion(CLI::App& app);
void add_preview(CLI::App& app);
void add_glare(CLI::App& app);
void add_join(CLI::App& app);
void add_clip(CLI::App& app);
void add_cut(CLI::App& app);
void add_keys(CLI::App& app);
void add_lay(CLI::App& app);
void add_manual(CLI::App& app);
void add_marks(CLI::App& app);
void add_match(CLI::App& app);
void add_model(CLI::App& app);
void add_page(CLI::App& app);
void add_portfolio(CLI::App& app);
void add_samples(CLI::App& app);
void add_status(CLI::App& app);
void add_stock(CLI::App& app);
void add_study(CLI::App& app);
void add_take_off(CLI::App& app);
void add_task(CLI::App& app);
void add_unwrap(CLI::App& app);
void add_watch(CLI::App& app);

/// All of these, in the order of the help.
void add_every_command(CLI::App& app);

}  // namespace rakelight
