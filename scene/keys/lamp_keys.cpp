// Lamps, daylight and set-ups of light.
#include "materials/colour/illuminants.h"
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/light/lamp_forms.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> lamp_words() {
    return {lamp_form_words().begin(), lamp_form_words().end()};
}

constexpr Takes kLampReading = reading(kLamp_nm, Quantity::plain, kPower.low, kPower.high);
constexpr Takes kRoomPoint = lengths(3, kAnywhere_mm);
constexpr Takes kLampSize = length(1, 5'000);
constexpr Takes kFitting = length(1, 2000);

constexpr KeyRow kLamp[] = {
    {"name", text("a name of its own"), kMust, "What the lamp is called."},
    {"grid", numbers(2, 1, 50), "one lamp",
     "The lamp again in this many columns across the room and rows out from the wall; `at` is their middle."},
    {"apart", lengths(2, 10, 20'000), "",
     "How far apart the lamps of a grid are, across and out from the wall."},
    {"group", text("any name"), "its name", "Lamps of one group are dimmed as one after the render."},
    {"form", word(lamp_words), "spot", "What shape its light comes from."},
    {"photometry", text("a photometric file (LM-63) beside the layout"), "",
     "Measured light in every direction, in place of a form."},
    {"at", kRoomPoint, "must be given, except of a picture light",
     "The middle of its luminous face in the room, [x, y, z]."},
    {"aim", kRoomPoint, "must be given of a lamp that faces one way, except of a picture light",
     "The point [x, y, z] that it is aimed at."},
    {"faces", kRoomPoint, "where it is aimed",
     "Of a strip: the point that its opening faces, when its beam goes elsewhere."},
    {"turn", angle(-360, 360), "0 deg", "Turned about its axis, counter-clockwise as seen along the beam."},
    {"lumen", measure(Quantity::flux_lm, 0.1, 1e6), "",
     "All its light; a lamp without a file has lumen or candela."},
    {"candela", measure(Quantity::intensity_cd, 0.1, 1e7), "",
     "Intensity in the middle of the beam; of a lantern sideways, of a measured lamp its greatest."},
    {"dimmed to", share(0, 1), "100 %", "Dimmed to this share of its light."},
    {"beam angle", angle(2, 150), "24 deg; of a strip matte", "Full angle at half the centre intensity."},
    {"field angle", angle(2, 175), "as the beam falls off", "Full angle at a tenth of the centre intensity."},
    {"temperature", measure(Quantity::temperature_k, 1000, 25'000), "3000 K",
     "Colour temperature; from 5000 K up it is daylight, below a glowing body."},
    {"illuminant", word(illuminant_names), "", "A CIE illuminant in place of a temperature."},
    {"spectrum", list_of(kLampReading, 1, 5000) | text("a CSV file beside the layout"), "",
     "Its own spectrum as pairs [nm, relative power], in place of a temperature."},
    {"width", kLampSize, "60 mm; lantern 250 mm, strip 30 mm", "Diameter or width of its luminous face."},
    {"height", kLampSize, "as its width", "Height of a panel or lantern."},
    {"length", kLampSize, "must be given of a strip", "Length of a strip or picture light."},
    {"barn doors", mapping(barn_doors), "no doors", "Black flaps hinged at the edges of its face."},
    {"honeycomb", mapping(honeycomb), "no honeycomb", "A black grid of tubes over its face."},
    {"snoot", mapping(snoot), "no snoot", "A black tube in front of a spot."},
};
constexpr KeyRule kLampRules[] = {{How::at_most_one, "form, photometry"},
                                  {How::at_most_one, "lumen, candela"},
                                  {How::some, "lumen, candela, photometry"},
                                  {How::at_most_one, "temperature, illuminant, spectrum"}};

constexpr std::string_view kOpened =
    "Opened so far from straight ahead; left and right as seen from behind the lamp.";
constexpr KeyRow kBarnDoors[] = {
    {"length", kFitting, kMust, "How far the doors reach from their hinges."},
    {"left", angle(-60, 89), "folded away", kOpened},
    {"right", angle(-60, 89), "folded away", kOpened},
    {"top", angle(-60, 89), "folded away", kOpened},
    {"bottom", angle(-60, 89), "folded away", kOpened},
};
constexpr KeyRule kBarnDoorRules[] = {{How::some, "left, right, top, bottom"}};

constexpr KeyRow kHoneycomb[] = {
    {"cell", length(0.5, 200), kMust, "Diameter of a tube."},
    {"depth", length(0.5, 500), kMust, "How deep the tubes are."},
};

constexpr KeyRow kSnoot[] = {
    {"length", kFitting, kMust, "How long the tube is."},
    {"width", kFitting, "as the lamp", "Diameter of its mouth."},
};

constexpr KeyRow kDaylight[] = {
    {"sky", word("overcast, clear"), "overcast", "The sky outside; a clear one has the sun in it."},
    {"date", text_like("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "a date, year-month-day, as in 2026-06-21"), "",
     "The day; a clear sky needs it."},
    {"time", text_like("^([01][0-9]|2[0-3]):[0-5][0-9]$", "a time from 00:00 to 23:59, in quotes"), "",
     "By the sun, or by the clock where longitude and zone are given; a clear sky needs it."},
    {"latitude", angle(-90, 90), "", "Latitude of the place, north is positive; a clear sky needs it."},
    {"longitude", angle(-180, 180), "the time is sun time", "Longitude of the place, east is positive."},
    {"utc offset", number(-12, 14), "", "Hours that the clock runs ahead of universal time."},
    {"facing",
     word("north, north-east, east, south-east, south, south-west, west, north-west") | angle(0, 360),
     "south", "Where the face of the panel looks to, as a word or clockwise from north."},
    {"lux", measure(Quantity::illuminance_lx, 0.001, 200'000), "by the height of the sun",
     "Light of the sky alone on level ground."},
    {"sun", measure(Quantity::illuminance_lx, 0, 200'000), "by the height of the sun",
     "Light of the sun across its beam; 0 hides it."},
    {"temperature", measure(Quantity::temperature_k, 4000, 25'000), "as the sky is",
     "Colour temperature of the sky."},
    {"ground", share(0, 0.95), "20 %", "Share of light that the ground outside sends back."},
};
constexpr KeyRule kDaylightRules[] = {{How::all_or_none, "date, time, latitude"},
                                      {How::all_or_none, "longitude, utc offset"}};

constexpr KeyRow kAllRound[] = {
    {"picture", text("an equirectangular picture beside the layout: EXR or Radiance HDR"), kMust,
     "Light from all round, twice as wide as high; its middle lies straight out of the panel's wall."},
    {"lux", measure(Quantity::illuminance_lx, 0.001, 200'000), "by unit",
     "Light that it gives the panel; it has lux or unit, or says itself what its numbers stand for."},
    {"unit", number(1e-9, 1e9), "as the file says",
     "Luminance, cd/m2, of a pixel whose red, green and blue are 1."},
    {"turned", angle(-360, 360), "0 deg", "Turned clockwise as seen from above."},
    {"dimmed to", share(0, 1), "100 %", "Dimmed to this share of its light."},
    {"name", text("a name of its own"), "light all round", "What it is called."},
    {"group", text("any name"), "its name", "Lights of one group are dimmed as one after the render."},
};
constexpr KeyRule kAllRoundRules[] = {{How::at_most_one, "lux, unit"}};

constexpr KeyRow kSetUps[] = {
    any("NAME", mapping(set_up), "A set-up by a name of its own; what it leaves out is as in the layout.")};

constexpr KeyRow kSetUp[] = {
    {"windows", list(window, 0, 2000), "those of the room", "Windows in place of the room's."},
    {"daylight", mapping(daylight), "that of the layout", "Light outside in place of the layout's."},
    {"light all round", mapping(all_round), "that of the layout, if no windows are listed",
     "A picture of light from all round in place of windows."},
    {"lamps", list(lamp, 0, 2000), "those of the layout", "Lamps in place of the layout's."},
};
constexpr KeyRule kSetUpRules[] = {{How::some, "windows, daylight, light all round, lamps"}};

}  // namespace

extern constexpr KeyTable lamp{"lamps", "A lamp: the whole luminaire, seen in the glass as what it is.",
                               kLamp, kLampRules};
extern constexpr KeyTable barn_doors{"lamps.barn doors", "Black flaps hinged at the edges of a lamp's face.",
                                     kBarnDoors, kBarnDoorRules};
extern constexpr KeyTable honeycomb{"lamps.honeycomb", "A black grid of tubes over a lamp's face.",
                                    kHoneycomb};
extern constexpr KeyTable snoot{"lamps.snoot", "A black tube in front of a spot.", kSnoot};
extern constexpr KeyTable daylight{"daylight", "The light outside the windows.", kDaylight, kDaylightRules};
extern constexpr KeyTable all_round{
    "light all round",
    "Light from all round, from a picture; walls, floor and ceiling but the panel's wall go.", kAllRound,
    kAllRoundRules};
extern constexpr KeyTable set_ups{"set-ups", "Set-ups of light, each by a name of its own.", kSetUps};
extern constexpr KeyTable set_up{"set-ups.NAME", "One set-up of light.", kSetUp, kSetUpRules};

}  // namespace rakelight::keys
