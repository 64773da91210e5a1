#include "output/batch/batch_list.h"

#include <fmt/format.h>
#include <glob.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "scene/text/nearest_word.h"
#include "scene/text/word_list.h"

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

std::string_view trimmed(std::string_view text) {
    constexpr const char* kBlanks = " \t\r";
    const std::size_t first = text.find_first_not_of(kBlanks);
    if (first == text.npos) return {};
    return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

bool is_choice(std::string_view line) {
    const std::string_view text = trimmed(line);
    return text == "for" || text.starts_with("for ") || text.starts_with("for\t");
}

// Parts between commas that stand in neither brackets nor quotes, up to a remark.
std::vector<std::string> parts_of(std::string_view text) {
    std::vector<std::string> parts{""};
    int depth = 0;
    char quote = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quote == 0 && c == '#' && (i == 0 || text[i - 1] == ' ' || text[i - 1] == '\t')) break;
        if (quote != 0)
            quote = c == quote ? '\0' : quote;
        else if (c == '"' || c == '\'')
            quote = c;
        else if (c == '[' || c == '{')
            ++depth;
        else if (c == ']' || c == '}')
            --depth;
        if (c == ',' && quote == 0 && depth == 0)
            parts.emplace_back();
        else
            parts.back() += c;
    }
    for (std::string& part : parts) part = trimmed(part);
    return parts;
}

// The jobs of a line, each once for every combination of what the lines below it choose from; the last
// changes fastest.
std::vector<BatchJob> multiplied(std::vector<BatchJob> jobs, std::span<const Choice> choices) {
    for (const Choice& choice : choices) {
        std::vector<BatchJob> more;
        for (const BatchJob& job : jobs) {
            if (!job.complaint.empty()) {
                more.push_back(job);
                continue;
            }
            for (const std::string& value : choice.values) {
                more.push_back(job);
                more.back().words.insert(more.back().words.end(), {"--set", choice.key + "=" + value});
            }
            if (more.size() > kMostVariants)
                return {{job.place,
                         {},
                         fmt::format("{}: found more than {} jobs in one, expected fewer choices", job.place,
                                     kMostVariants)}};
        }
        jobs = std::move(more);
    }
    return jobs;
}

// One line with a job and those that begin with `for` below it.
struct ListEntry {
    std::vector<BatchJob> jobs;
    std::vector<Choice> choices;
};

void add_choice(std::vector<ListEntry>& entries, const std::string& place, std::string_view line) {
    std::string why;
    try {
        if (entries.empty()) throw RequestError("found a choice, expected the job that it is for above it");
        entries.back().choices.push_back(choice_of_line(line));
        return;
    } catch (const RequestError& e) {
        why = fmt::format("{}: {}", place, e.what());
    }
    // Without its choice a job would not do what is wanted.
    if (entries.empty()) entries.push_back({{{place, {}, ""}}, {}});
    for (BatchJob& job : entries.back().jobs)
        if (job.complaint.empty()) job.complaint = why;
}

void add_list(std::vector<BatchJob>& jobs, const std::string& name, std::span<const std::string> commands) {
    const std::string text = read_file(name);
    std::vector<ListEntry> entries;
    int number = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        const std::string line = text.substr(begin, end - begin),
                          place = fmt::format("{}:{}", name, ++number);
        begin = end + 1;
        if (is_choice(line)) {
            add_choice(entries, place, line);
            continue;
        }
        ListEntry entry;
        add_line(entry.jobs, place, line, commands);
        if (!entry.jobs.empty()) entries.push_back(std::move(entry));
    }
    for (ListEntry& entry : entries)
        for (BatchJob& job : multiplied(std::move(entry.jobs), entry.choices)) jobs.push_back(std::move(job));
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

Choice choice_of_line(std::string_view line) {
    std::string_view rest = trimmed(trimmed(line).substr(3));
    const std::size_t in = rest.find(" in ");
    Choice choice{std::string(trimmed(rest.substr(0, in))), {}};
    if (in != rest.npos) choice.values = parts_of(rest.substr(in + 4));
    if (choice.key.empty() || choice.values.empty() || holds(choice.values, ""))
        throw RequestError(fmt::format(
            "found \"{}\", expected such as: for fields.sea.grout in black, charcoal, sand", trimmed(line)));
    for (std::size_t i = 0; i < choice.values.size(); ++i)
        if (holds(std::span(choice.values).first(i), choice.values[i]))
            throw RequestError(fmt::format("found {} twice, expected every choice once", choice.values[i]));
    return choice;
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
