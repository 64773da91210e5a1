// What of a folder goes to a client: pictures, boards and the proposal; no masks, stock or tables.
#pragma once

#include <string>
#include <vector>

#include "output/web/run_folder.h"

namespace rakelight {

/// A page for a client is made no larger than this, so that it can be sent by mail.
inline constexpr std::size_t kMostClientBytes = 5'000'000;

/// Names by which pictures are chosen: of their files, without folder and ending. Each once, in order.
std::vector<std::string> picture_names(const RunFolder& run);

/// Leaves out pictures with other names; `names` empty: none.
void keep_pictures(RunFolder& run, const std::vector<std::string>& names);

/// Leaves out what is not for a client, and what is marked as older than the layout. \return the proposal, a
/// PDF, relative to the folder; empty = there is none.
std::string keep_for_client(RunFolder& run);

}  // namespace rakelight
