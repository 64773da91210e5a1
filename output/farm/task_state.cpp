#include "output/farm/task_state.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <sstream>

#include "output/film/scene_hash.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr std::array kStages{"left", "running", "done", "failed"};

std::string machine_here() {
    std::array<char, 256> name{};
    if (::gethostname(name.data(), name.size() - 1) != 0 || name[0] == '\0') return "unknown";
    std::string machine(name.data());
    std::replace_if(
        machine.begin(), machine.end(), [](unsigned char c) { return c <= ' '; }, '-');
    return machine;
}

std::optional<TaskState> state_of(const std::string& text) {
    std::istringstream in(text);
    std::string stage;
    std::string mark;
    TaskState state;
    if (!(in >> stage >> mark >> state.code >> state.machine >> state.process >> state.share)) return {};
    const auto found = std::find(kStages.begin(), kStages.end(), stage);
    if (found == kStages.end() || mark.size() != 16 ||
        mark.find_first_not_of("0123456789abcdef") != mark.npos)
        return {};
    state.stage = static_cast<TaskStage>(found - kStages.begin());
    state.mark = std::stoull(mark, nullptr, 16);
    return state;
}

// The time by the clock of whatever keeps the folder: a server's may differ from ours.
fs::file_time_type now_in(const fs::path& folder) {
    try {
        const SafeFile probe(folder / "clock");  // goes away by itself
        return fs::last_write_time(probe.hidden());
    } catch (const std::exception&) {
        return fs::file_time_type::clock::now();
    }
}

bool has_process(int process) {
    return ::kill(process, 0) == 0 || errno == EPERM;
}

}  // namespace

TaskState state_here(TaskStage stage, std::uint64_t mark) {
    return {stage, mark, 0, machine_here(), ::getpid(), stage == TaskStage::done ? 1.0 : 0.0};
}

void write_state(const fs::path& folder, const TaskName& name, const TaskState& state) noexcept {
    try {
        fs::create_directories(folder / "state");
        write_file(
            folder / "state" / task_text(name),
            fmt::format("{} {} {} {} {} {:.2f}\n", kStages[static_cast<std::size_t>(state.stage)],
                        hash_digits(state.mark), state.code, state.machine, state.process, state.share));
    } catch (const std::exception&) {
        return;
    }
}

std::map<std::string, TaskState> read_states(const fs::path& folder) {
    std::map<std::string, TaskState> states;
    const fs::path files = folder / "state";
    std::error_code error;
    if (!fs::is_directory(files, error)) return states;
    const auto now = now_in(files);
    const std::string here = machine_here();
    for (fs::directory_iterator walk(files, error), end; !error && walk != end; walk.increment(error)) {
        const std::string name = walk->path().filename().string();
        if (name.starts_with('.')) continue;
        try {
            auto state = state_of(read_file(walk->path()));
            if (!state) continue;
            const std::chrono::duration<double> silent = now - fs::last_write_time(walk->path());
            if (state->stage == TaskStage::running &&
                (silent.count() > kSilent_s || (state->machine == here && !has_process(state->process))))
                state->stage = TaskStage::left;
            states.emplace(name, *state);
        } catch (const std::exception&) {
            continue;  // gone or renamed meanwhile
        }
    }
    return states;
}

}  // namespace rakelight
