// The commands in the order of the help: the usual one first, then as a commission is worked.
#include "output/program/commands.h"

namespace rakelight {

void add_every_command(CLI::App& app) {
    for (const auto add :
         {add_preview,  add_watch,     add_check, add_lay,   add_stock,      add_samples, add_marks,
          add_unwrap,   add_keys,      add_match, add_board, add_glare,      add_compare, add_study,
          add_take_off, add_portfolio, add_clip,  add_cut,   add_model,      add_page,    add_all,
          add_batch,    add_status,    add_task,  add_join,  add_completion, add_manual})
        add(app);
}

}  // namespace rakelight
