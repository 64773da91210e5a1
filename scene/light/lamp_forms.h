// The table of lamp forms: a row a form, with the keys it takes, the shape of its luminous face and what its
// two sizes mean. Reading, the summary, the bodies of lamps in pictures and sketches look it up here;
// emitter.cpp makes the light.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "scene/light/emitter.h"
#include "scene/model/lamp.h"

namespace rakelight {

/// What `Lamp::width_mm` or `Lamp::height_mm` is in one form.
struct LampSize {
    std::string_view key;      ///< in layout files; empty = it cannot be said and is as the width
    std::string_view meaning;  ///< of the number, for messages
    double usual_mm = 0;       ///< 0 = of a height: as the width; of a width: as it was placed
    bool required = false;
};

struct LampFormRule {
    LampForm form{};
    std::string_view word;
    bool by_file =
        false;  ///< of `photometry: FILE` and not of `form: WORD`; then its light may be left unsaid
    /// Of half its two sizes, its luminous shape; null = as its file says.
    EmitterShape (*shape)(const glm::vec2& half_mm) = nullptr;
    LampSize width;  ///< a disc's, sphere's or cylinder's is its diameter
    LampSize height;
    bool faces_one_way = true;  ///< takes `aim`, `turn` and cut-offs; else it shines all round
    bool takes_beam = false;    ///< `beam` and `field`
    bool is_strip = false;      ///< its beam is across it (none unless told) and may leave aside: `faces`
    bool takes_snoot = false;
    bool over_work = false;  ///< hangs over the top of the work unless placed and aimed otherwise
    bool in_can = false;     ///< pictures of the room show it in a can on a stem
};

/// All of them, in the order of `LampForm`.
std::span<const LampFormRule> lamp_forms();

/// \throws std::out_of_range for a form without a row.
const LampFormRule& rule_of(LampForm form);

/// The words that `form:` knows, in the order of `LampForm`.
std::span<const std::string> lamp_form_words();

/// The form that one of `lamp_form_words` means.
LampForm lamp_form_of_word(std::size_t index);

/// The words of those for which `holds`, as in "spot, strip or picture light".
std::string lamp_forms_that(bool LampFormRule::*holds);

}  // namespace rakelight
