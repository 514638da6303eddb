// The ten questions of a first description: fields, limits, choices, as one table.
#include "studies/first_questions.hpp"

namespace houseleek::studies {
namespace {

using enum FieldKind;

constexpr FirstField name_fields[] = {{.key = "name", .label = "Name of the roof", .kind = text, .usual = "My roof"}};

constexpr FirstField place_fields[] = {{.key = "latitude_deg",
                                        .label = "Latitude, south below zero",
                                        .kind = number,
                                        .unit = "deg",
                                        .least = -66,
                                        .most = 66},
                                       {.key = "longitude_deg",
                                        .label = "Longitude, west below zero",
                                        .kind = number,
                                        .unit = "deg",
                                        .least = -180,
                                        .most = 180},
                                       {.key = "elevation_m",
                                        .label = "Height above the sea",
                                        .kind = number,
                                        .unit = "m",
                                        .least = -400,
                                        .most = 4500,
                                        .usual = "50"},
                                       {.key = "time_zone", .label = "Time zone", .kind = text}};

constexpr FirstField warmth_fields[] = {{.key = "warm_day_c",
                                         .label = "Warmest month, a usual afternoon",
                                         .kind = number,
                                         .unit = "degC",
                                         .least = -10,
                                         .most = 50},
                                        {.key = "warm_night_c",
                                         .label = "Warmest month, a usual night",
                                         .kind = number,
                                         .unit = "degC",
                                         .least = -20,
                                         .most = 40},
                                        {.key = "cold_day_c",
                                         .label = "Coldest month, a usual afternoon",
                                         .kind = number,
                                         .unit = "degC",
                                         .least = -40,
                                         .most = 40},
                                        {.key = "cold_night_c",
                                         .label = "Coldest month, a usual night",
                                         .kind = number,
                                         .unit = "degC",
                                         .least = -50,
                                         .most = 35}};

constexpr FirstField rain_fields[] = {
    {.key = "rain_mm_per_year", .label = "Rain in a year", .kind = number, .unit = "mm", .least = 0, .most = 6000},
    {.key = "rain_season",
     .label = "When most of it falls",
     .kind = choice,
     .choices = "even=all the year alike|winter=in the cold half|summer=in the warm half",
     .usual = "even"}};

constexpr FirstField size_fields[] = {
    {.key = "width_m",
     .label = "Width, left to right as you stand",
     .kind = number,
     .unit = "m",
     .least = 2,
     .most = 60},
    {.key = "depth_m", .label = "Depth, away from you", .kind = number, .unit = "m", .least = 2, .most = 60},
    {.key = "ahead",
     .label = "Looking across the depth you look",
     .kind = choice,
     .choices = "0=north|90=east|180=south|270=west",
     .usual = "0"},
    {.key = "parapet_height_mm",
     .label = "Height of the wall round the edge",
     .kind = number,
     .unit = "mm",
     .least = 0,
     .most = 2000,
     .usual = "0"}};

constexpr FirstField deck_fields[] = {
    {.key = "deck",
     .label = "What the roof is made of",
     .kind = choice,
     .choices = "concrete=concrete slab, no insulation|insulated_concrete=concrete slab with insulation|"
                "hollow=slab of hollow clay blocks|timber=timber joists, boards and insulation",
     .usual = "concrete"},
    {.key = "slab_mm",
     .label = "Thickness of slab, or of the insulation between joists",
     .kind = number,
     .unit = "mm",
     .least = 60,
     .most = 400,
     .usual = "160"},
    {.key = "finish",
     .label = "How its top looks",
     .kind = choice,
     .choices = "bitumen, weathered=grey old felt|bitumen, new black=new black felt|"
                "bare concrete, weathered=bare concrete|mineral felt, light grey=felt with light grit|"
                "terracotta tiles=red tiles|white membrane, weathered=white membrane, not new",
     .usual = "bitumen, weathered"}};

constexpr FirstField water_fields[] = {
    {.key = "outlet_side",
     .label = "The side the water runs to",
     .kind = choice,
     .choices = "far=away from you|near=towards you|left=to the left|right=to the right",
     .usual = "far"},
    {.key = "outlets", .label = "How many outlets there", .kind = whole, .least = 1, .most = 6, .usual = "1"},
    {.key = "fall_mm_per_m",
     .label = "How much it falls",
     .kind = number,
     .unit = "mm per m",
     .least = 0,
     .most = 60,
     .usual = "10"}};

constexpr FirstField room_fields[] = {
    {.key = "rooms", .label = "Rooms right below, side by side", .kind = whole, .least = 1, .most = 6, .usual = "1"},
    {.key = "bedrooms",
     .label = "How many of them people sleep in",
     .kind = whole,
     .least = 0,
     .most = 6,
     .usual = "1"},
    {.key = "thermal_mass",
     .label = "Their walls and floors",
     .kind = choice,
     .choices = "heavy=stone, brick or concrete|medium=a mixture|light=wood and boards",
     .usual = "heavy"},
    {.key = "has_fans", .label = "They have fans", .kind = flag, .usual = "false"}};

constexpr FirstField load_fields[] = {
    {.key = "load_kn_per_m2",
     .label = "What an engineer allows on top",
     .kind = number,
     .unit = "kN/m2",
     .least = 0.05,
     .most = 50,
     .is_optional = true},
    {.key = "load_who", .label = "Who wrote it down", .kind = text, .is_optional = true},
    {.key = "load_when", .label = "On which day (2024-05-31)", .kind = text, .is_optional = true},
    {.key = "load_includes", .label = "What the figure already covers", .kind = text, .is_optional = true}};

constexpr FirstField module_fields[] = {
    {.key = "recipe",
     .label = "The first recipe",
     .kind = choice,
     .choices = "light=light: stonecrops in 50 mm, raised on slats|deeper=deeper: herbs in 80 mm, flat",
     .usual = "light"},
    {.key = "modules",
     .label = "Modules of one square metre to begin with",
     .kind = whole,
     .least = 0,
     .most = 1000,
     .usual = "6"},
    {.key = "currency", .label = "Currency, three letters", .kind = text, .usual = "EUR"}};

constexpr FirstQuestion questions[] = {
    {"What do you call it?", "Any name; it heads every page.", name_fields},
    {"Where is it?", "Of the town, to half a degree; a map shows both numbers. The sun is worked out from them.",
     place_fields},
    {"How warm and how cold does it get?", "Usual days, not records; a table of the nearest weather station has them.",
     warmth_fields},
    {"How much does it rain?", "", rain_fields},
    {"How large is the roof?", "A rectangle to begin with; corners can be added in the description.", size_fields},
    {"What is it made of?", "What you can see, and what neighbours with the same house know.", deck_fields},
    {"Where does the water go?", "", water_fields},
    {"What is below it?", "Rooms of equal width, from left to right.", room_fields},
    {"Who has said what it may carry?",
     "Left empty there are weights and no verdict. Only a licensed engineer can say what a roof may carry.",
     load_fields},
    {"What would you lay first?", "Both can be changed layer by layer afterwards.", module_fields}};

}  // namespace

std::span<const FirstQuestion> first_question_table() { return questions; }

}  // namespace houseleek::studies
