#include "scene/model/opus_words.h"

#include <vector>

namespace rakelight {

std::span<const std::string> opus_words() {
    static const std::vector<std::string> words = [] {
        std::vector<std::string> names;
        for (const OpusWord& word : kOpera) names.emplace_back(word.name);
        return names;
    }();
    return words;
}

}  // namespace rakelight
