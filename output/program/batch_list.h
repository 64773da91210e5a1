// What a batch is asked to do: layout files, and lists with a job on each line.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rakelight {

/// One run of the program.
struct BatchJob {
    std::string place;  ///< where it was asked for, as "night.txt:3"; a file named directly: its name
    std::vector<std::string> words;  ///< a command and its arguments
    std::string complaint;           ///< why it cannot be run; empty = it can
};

/// The words of a line: parted by blanks, "held together" by either kind of quotes, '#' starts a remark.
/// \throws RequestError when a quote is not closed.
std::vector<std::string> words_of_line(std::string_view line);

/// Jobs in order. A name that ends in .yaml or .yml is a layout to preview, any other a list. A line of a
/// list is a command with its arguments (one of `commands`), or layouts to preview, in which * and ? stand
/// for letters of file names; all seen from the current folder. What makes no sense becomes a job with a
/// complaint. \throws RequestError when a list cannot be read or nothing is asked for.
std::vector<BatchJob> batch_jobs(std::span<const std::string> names, std::span<const std::string> commands);

}  // namespace rakelight
