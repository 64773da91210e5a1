// Fuzz target: whatever the words, a command line is understood or refused, and so are options, lists of jobs
// and tasks. No command is run. Words are parted by ends of lines.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "output/batch/batch_list.h"
#include "output/command_line/mistyped.h"
#include "output/farm/tasks.h"
#include "output/program/commands.h"
#include "output/program/parse_options.h"
#include "output/system/errors.h"
#include "tests/support/fuzz_file.h"

namespace {

using namespace rakelight;

void parse(const std::vector<std::string>& words) {
    CLI::App app{"", "rakelight"};
    app.require_subcommand(1);
    add_every_command(app);
    // A command's own callback holds what its options write to, so it stays and is not come to.
    for (CLI::App* command : app.get_subcommands({}))
        command->parse_complete_callback([] { throw CLI::Success(); });
    std::vector<std::string> backwards(words.rbegin(), words.rend());
    try {
        app.parse(backwards);
    } catch (const CLI::ParseError&) {
        mistyped(app, words);
    }
}

std::filesystem::path tasks_folder(const std::uint8_t* data, std::size_t size) {
    const std::filesystem::path file = test::fuzz_file(data, size, ".json");
    std::filesystem::rename(file, file.parent_path() / "tasks.json");
    return file.parent_path();
}

void try_it(const auto& work) {
    try {
        work();
    } catch (const RequestError&) {
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    std::vector<std::string> words{""};
    for (const char c : text)
        if (c == '\n')
            words.emplace_back();
        else if (c != '\0')
            words.back() += c;
    parse(words);
    for (const std::string& word : words) {
        try_it([&] { parse_size(word); });
        try_it([&] { parse_rows(word, 900); });
        try_it([&] { rows_of_part(parse_part(word), 900); });
        try_it([&] { parse_grain(word); });
        try_it([&] { parse_slab(word); });
        try_it([&] { words_of_line(word); });
        try_it([&] { choice_of_line("for " + word); });
    }
    try_it([&] {
        const std::string list = test::fuzz_file(data, size, ".txt").string();
        batch_jobs(std::vector<std::string>{list}, std::vector<std::string>{"preview", "lay", "page"});
    });
    try_it([&] { read_tasks(tasks_folder(data, size)); });
    return 0;
}
