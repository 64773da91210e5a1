#include "output/program/batch_list.h"

#include <fmt/format.h>
#include <glob.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

bool is_layout_name(const std::string& name) {
    return name.ends_with(".yaml") || name.ends_with(".yml");
}

// Files that a pattern stands for, in order of their names; the pattern itself when there are none.
std::vector<std::string> expanded(const std::string& pattern) {
    std::vector<std::string> files;
    glob_t found{};
    if (::glob(pattern.c_str(), GLOB_NOCHECK, nullptr, &found) == 0)
        for (std::size_t i = 0; i < found.gl_pathc; ++i) files.emplace_back(found.gl_pathv[i]);
    ::globfree(&found);
    return files;
}

BatchJob layout_job(std::string place, const std::string& file, std::span<const std::string> commands) {
    BatchJob job{std::move(place), {"preview", file}, ""};
    if (!std::filesystem::is_regular_file(file)) {
        job.complaint = fmt::format("{}: found \"{}\", expected a layout file or a command", job.place, file);
        if (!is_layout_name(file))
            job.complaint += did_you_mean(file, std::vector<std::string>(commands.begin(), commands.end()));
    }
    return job;
}

void add_line(std::vector<BatchJob>& jobs, const std::string& place, const std::string& line,
              std::span<const std::string> commands) {
    std::vector<std::string> words;
    try {
        words = words_of_line(line);
    } catch (const RequestError& e) {
        jobs.push_back({place, {}, fmt::format("{}: {}", place, e.what())});
        return;
    }
    if (words.empty()) return;
    if (std::find(commands.begin(), commands.end(), words[0]) != commands.end()) {
        jobs.push_back({place, std::move(words), ""});
        return;
    }
    if (!is_layout_name(words[0])) {
        jobs.push_back(layout_job(place, words[0], commands));
        return;
    }
    for (const std::string& word : words)
        for (const std::string& file : expanded(word)) jobs.push_back(layout_job(place, file, commands));
}

void add_list(std::vector<BatchJob>& jobs, const std::string& name, std::span<const std::string> commands) {
    const std::string text = read_file(name);
    int number = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        add_line(jobs, fmt::format("{}:{}", name, ++number), text.substr(begin, end - begin), commands);
        begin = end + 1;
    }
}

}  // namespace

std::vector<std::string> words_of_line(std::string_view line) {
    std::vector<std::string> words;
    std::string word;
    bool inside = false;
    char quote = 0;
    for (const char c : line) {
        if (quote != 0) {
            if (c == quote)
                quote = 0;
            else
                word += c;
        } else if (c == '"' || c == '\'') {
            quote = c;
            inside = true;
        } else if (c == ' ' || c == '\t' || c == '\r') {
            if (inside) words.push_back(std::exchange(word, {}));
            inside = false;
        } else if (c == '#' && !inside) {
            break;
        } else {
            word += c;
            inside = true;
        }
    }
    if (quote != 0)
        throw RequestError(fmt::format("found {}, expected its pair before the line ends", quote));
    if (inside) words.push_back(word);
    return words;
}

std::vector<BatchJob> batch_jobs(std::span<const std::string> names, std::span<const std::string> commands) {
    std::vector<BatchJob> jobs;
    for (const std::string& name : names)
        if (is_layout_name(name))
            jobs.push_back(layout_job(name, name, commands));
        else
            add_list(jobs, name, commands);
    if (jobs.empty()) throw RequestError("there is nothing to do: the lists are empty");
    return jobs;
}

}  // namespace rakelight
