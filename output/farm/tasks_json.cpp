// The file of tasks.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>

#include "output/farm/tasks.h"
#include "output/film/json_head.h"
#include "output/film/scene_hash.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"

namespace rakelight {

NLOHMANN_JSON_SERIALIZE_ENUM(FarmWork, {{FarmWork::preview, "preview"},
                                        {FarmWork::parts, "parts"},
                                        {FarmWork::join, "join"},
                                        {FarmWork::command, "command"}})

namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

constexpr int kTasksVersion = 1;
constexpr const char* kFile = "tasks.json";

std::uint64_t hash_of(const Json& j) {
    return std::stoull(j.get<std::string>(), nullptr, 16);
}

Json json_of(const FarmJob& job) {
    Json pictures = Json::array();
    for (const FarmPicture& p : job.pictures)
        pictures.push_back(
            {{"folder", p.folder}, {"stem", p.stem}, {"scene_hash", hash_digits(p.scene_hash)}});
    return {{"work", job.work},     {"words", job.words},
            {"place", job.place},   {"sources", job.sources == 0 ? Json() : Json(hash_digits(job.sources))},
            {"tasks", job.tasks},   {"after", job.after},
            {"task_s", job.task_s}, {"pictures", pictures}};
}

FarmJob job_of(const Json& j) {
    FarmJob job;
    j.at("work").get_to(job.work);
    j.at("words").get_to(job.words);
    j.at("place").get_to(job.place);
    if (!j.at("sources").is_null()) job.sources = hash_of(j.at("sources"));
    j.at("tasks").get_to(job.tasks);
    j.at("after").get_to(job.after);
    j.at("task_s").get_to(job.task_s);
    for (const Json& p : j.at("pictures"))
        job.pictures.push_back({p.at("folder").get<std::string>(), p.at("stem").get<std::string>(),
                                hash_of(p.at("scene_hash"))});
    return job;
}

std::string text_of(const FarmTasks& tasks) {
    Json j = json_head("tasks", kTasksVersion, {kProgram, "", {}});
    j["on"] = tasks.on;
    j["seen_from"] = tasks.seen_from;
    j["threads"] = tasks.threads;
    j["jobs"] = Json::array();
    for (const FarmJob& job : tasks.jobs) j["jobs"].push_back(json_of(job));
    try {
        return j.dump(1) + '\n';
    } catch (const Json::type_error&) {
        throw RequestError("a name in these jobs is not UTF-8, and cannot be handed to other machines");
    }
}

// A job waits for earlier ones only, so that no two wait for each other.
void check(const FarmTasks& tasks) {
    for (std::size_t i = 0; i < tasks.jobs.size(); ++i) {
        const FarmJob& job = tasks.jobs[i];
        bool good = job.tasks >= 1 && !job.words.empty() && (job.work == FarmWork::parts || job.tasks == 1);
        for (const int before : job.after) good = good && before >= 1 && before <= static_cast<int>(i);
        if (job.work == FarmWork::join) good = good && job.after.size() == 1;
        if (!good) throw std::invalid_argument("tasks");
    }
}

}  // namespace

void write_tasks(const fs::path& folder, const FarmTasks& tasks) {
    write_file(folder / kFile, text_of(tasks));
}

std::uint64_t mark_of(const FarmTasks& tasks) {
    return fnv1a(text_of(tasks));
}

FarmTasks read_tasks(const fs::path& folder) {
    const fs::path file = folder / kFile;
    if (!fs::is_regular_file(file))
        throw RequestError(fmt::format(
            "{}: found no {}, expected a folder that `batch --on` made, such as renders/night.tasks",
            folder.string(), kFile));
    const std::string text = read_file(file);
    FarmTasks tasks;
    try {
        const Json j = Json::parse(text);
        if (j.at("program") != kProgram || j.at("version") != kTasksVersion)
            throw RequestError(fmt::format("{}: found tasks of {}, expected {}", file.string(),
                                           j.at("program").get<std::string>(), kProgram));
        j.at("on").get_to(tasks.on);
        j.at("seen_from").get_to(tasks.seen_from);
        j.at("threads").get_to(tasks.threads);
        for (const Json& job : j.at("jobs")) tasks.jobs.push_back(job_of(job));
        check(tasks);
    } catch (const RequestError&) {
        throw;
    } catch (const std::exception&) {
        throw RequestError(
            fmt::format("{}: found something else, expected tasks that `batch --on` wrote", file.string()));
    }
    return tasks;
}

}  // namespace rakelight
