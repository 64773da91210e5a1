// The tables of keys as a JSON Schema of layout files, for editors that check and complete YAML while one
// types, and for validators. Draft 2020-12 (json-schema.org, "JSON Schema: A Media Type for Describing JSON
// Documents", June 2022); YAML is meant as version 1.2 reads it, in which `yes` and 2026-06-21 are texts.
#pragma once

#include <string>

namespace rakelight {

/// The schema. It refuses unknown keys, values of another shape, words that are none of a list, units of
/// another quantity and bare numbers out of range. It cannot see numbers out of range behind a unit, names
/// that lead nowhere, and what does not fit together in the work itself.
std::string layout_schema();

}  // namespace rakelight
