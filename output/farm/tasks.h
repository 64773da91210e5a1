// What is handed out: jobs of one or many tasks, in a file of a folder that all machines see. A task is named
// by its job and its place in it, as 2-17, both from 1.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "output/preview/printing.h"

namespace rakelight {

/// Options of `preview` that a job's words are searched for.
inline constexpr const char* kNoGlowOption = "--no-glow";
inline constexpr const char* kAsTracedOption = "--as-traced";
inline constexpr const char* kSkipOption = "--skip-finished";

/// A picture that a job renders, where it will be, and the scene it has to be of.
struct FarmPicture {
    std::string folder;
    std::string stem;              ///< of its files
    std::uint64_t scene_hash = 0;  ///< see output/film/scene_hash.h
    friend bool operator==(const FarmPicture&, const FarmPicture&) = default;
};

enum class FarmWork {
    preview,  ///< pictures whole, in one task
    parts,    ///< pictures in bands of rows, one task a band
    join,     ///< the bands of an earlier job put together
    command,  ///< any other command
};

struct FarmJob {
    FarmWork work = FarmWork::command;
    std::vector<std::string> words;  ///< of the command, as it would be typed
    std::string place;               ///< where it was asked for, as "night.txt:3"
    std::uint64_t sources = 0;       ///< hash of the layout that a command reads; 0 = none
    int tasks = 1;
    std::vector<int> after;  ///< places, from 1, of jobs that have to end first
    double task_s = 0;       ///< estimate for one task; 0 = unknown
    std::vector<FarmPicture> pictures;
    friend bool operator==(const FarmJob&, const FarmJob&) = default;
};

struct FarmTasks {
    std::string on;         ///< "slurm" or "parallel"
    std::string seen_from;  ///< folder that words are seen from, as seen from the folder of the tasks
    int threads = 0;        ///< of a task; 0 = all of a machine
    std::vector<FarmJob> jobs;
};

struct TaskName {
    int job = 1;    ///< from 1
    int which = 1;  ///< of the job's tasks, from 1
    friend bool operator==(const TaskName&, const TaskName&) = default;
};

/// "2-17". \throws RequestError when it is no name of a task of these.
TaskName parse_task(std::string_view text, const FarmTasks& tasks);
std::string task_text(const TaskName& name);

/// What a task's result depends on: words, scenes and layout, how it is split, and those that it waits for.
/// `job` from 1.
std::uint64_t mark_of(const FarmTasks& tasks, int job);

/// One line about a job for people: "preview tide.yaml".
std::string title_of(const FarmJob& job);

/// The file of a band of rows, as `preview` names it.
std::filesystem::path part_file(const FarmPicture& picture, int which, int of);

/// How a job's pictures are printed.
Printing printing_of(const FarmJob& job);

/// Whether the files of a task are there, of the scene that is wanted; seen from the folder that words are
/// seen from. Never true of a command, whose files are its own business.
bool has_its_files(const FarmJob& job, int which);

/// The file `tasks.json` of a folder. `write_tasks` \throws RequestError when a word is not UTF-8,
/// OutputError; `read_tasks` \throws RequestError when there are none or they are of another program.
void write_tasks(const std::filesystem::path& folder, const FarmTasks& tasks);
FarmTasks read_tasks(const std::filesystem::path& folder);

/// A mark of all of it, which the scripts carry: a script of older tasks does none of the new ones.
std::uint64_t mark_of(const FarmTasks& tasks);

}  // namespace rakelight
