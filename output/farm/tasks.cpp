#include "output/farm/tasks.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "output/film/film_file.h"
#include "output/film/scene_hash.h"
#include "output/preview/finished.h"
#include "output/system/errors.h"
#include "output/system/program.h"

namespace rakelight {

namespace {

std::uint64_t add(std::uint64_t state, std::string_view text) {
    return fnv1a(text, fnv1a(hash_digits(text.size()), state));
}

std::uint64_t add(std::uint64_t state, std::uint64_t number) {
    return fnv1a(hash_digits(number), state);
}

// 0 when it is no number.
int whole_number(std::string_view text) {
    int number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc() && end == text.data() + text.size() ? number : 0;
}

bool is_part_of(const std::filesystem::path& file, std::uint64_t scene) {
    try {
        return std::filesystem::is_regular_file(file) && read_film_about(file).notes.scene_hash == scene;
    } catch (const OutputError&) {
        return false;  // damaged: as if it were not there
    }
}

}  // namespace

TaskName parse_task(std::string_view text, const FarmTasks& tasks) {
    const std::size_t at = text.find('-');
    const int job = whole_number(text.substr(0, at));
    const int which = at == text.npos ? 0 : whole_number(text.substr(at + 1));
    if (job < 1 || job > static_cast<int>(tasks.jobs.size()) || which < 1 ||
        which > tasks.jobs[static_cast<std::size_t>(job - 1)].tasks)
        throw RequestError(
            fmt::format("found \"{}\", expected a task, such as 1-2, of {} jobs", text, tasks.jobs.size()));
    return {job, which};
}

std::string task_text(const TaskName& name) {
    return fmt::format("{}-{}", name.job, name.which);
}

std::uint64_t mark_of(const FarmTasks& tasks, int number) {
    const FarmJob& job = tasks.jobs[static_cast<std::size_t>(number - 1)];
    std::uint64_t mark = add(fnv1a({}), kProgram);
    mark = add(mark, static_cast<std::uint64_t>(job.work));
    mark = add(mark, static_cast<std::uint64_t>(job.tasks));
    mark = add(mark, job.sources);
    for (const std::string& word : job.words) mark = add(mark, std::string_view(word));
    for (const FarmPicture& picture : job.pictures) mark = add(mark, picture.scene_hash);
    for (const int before : job.after) mark = add(mark, mark_of(tasks, before));
    return mark;
}

std::string title_of(const FarmJob& job) {
    std::vector<std::string> words;
    for (std::string word : job.words) {
        std::replace_if(
            word.begin(), word.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }, ' ');
        if (word != kSkipOption) words.push_back(std::move(word));
    }
    return fmt::format("{}", fmt::join(words, " "));
}

std::filesystem::path part_file(const FarmPicture& picture, int which, int of) {
    return std::filesystem::path(picture.folder) /
           fmt::format("{}.part-{}-of-{}.exr", picture.stem, which, of);
}

Printing printing_of(const FarmJob& job) {
    const auto has = [&](const char* option) {
        return std::find(job.words.begin(), job.words.end(), option) != job.words.end();
    };
    return {!has(kNoGlowOption), has(kAsTracedOption)};
}

bool has_its_files(const FarmJob& job, int which) {
    if (job.work == FarmWork::command) return false;
    return std::all_of(job.pictures.begin(), job.pictures.end(), [&](const FarmPicture& picture) {
        return is_finished(picture.folder, picture.stem, picture.scene_hash, printing_of(job)) ||
               (job.work == FarmWork::parts &&
                is_part_of(part_file(picture, which, job.tasks), picture.scene_hash));
    });
}

}  // namespace rakelight
