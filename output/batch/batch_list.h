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

/// `for KEY in VALUE, VALUE ..`: a key of the layout (tree_override.h) that takes each of some values in
/// turn.
struct Choice {
    std::string key;
    std::vector<std::string> values;
};

/// Of a line that begins with `for`. Commas in brackets or quotes part nothing, '#' after a blank starts a
/// remark. \throws RequestError when it has no key or no values, or one of them twice.
Choice choice_of_line(std::string_view line);

/// More jobs than this from one line are refused.
inline constexpr std::size_t kMostVariants = 1000;

/// Jobs in order. A name that ends in .yaml or .yml is a layout to preview, any other a list. A line of a
/// list is a command with its arguments (one of `commands`), or layouts to preview, in which * and ? stand
/// for letters of file names; all seen from the current folder. Lines with `for` below it multiply: the job
/// is done once for each value of each, with --set, so that each goes to a folder named after its choices.
/// What makes no sense becomes a job with a complaint. \throws RequestError when a list cannot be read or
/// nothing is asked for.
std::vector<BatchJob> batch_jobs(std::span<const std::string> names, std::span<const std::string> commands);

}  // namespace rakelight
