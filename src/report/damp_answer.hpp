// What a study answers about damp in the deck, as plain data.
#pragma once
#include <string>
#include <vector>

#include "design/assumption.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

using results::Figure;

/// What one case of one cover comes to over the years.
struct DampCase {
  std::string name;                      // what is changed
  std::string says;                      // dries out every summer, wetter each winter, not shown to dry
  double wood_percent = 0.0;             // most of a month in the last year, by mass; 0 without wood
  double driest_humidity_percent = 0.0;  // of the wettest place, in the driest month of the last year
  double left_kg_per_m2 = 0.0;           // water at the end over that a year after the start
};

/// Months' means of the water in the deck, over all cases.
struct DampSeries {
  std::vector<double> low_kg_per_m2;
  std::vector<double> likely_kg_per_m2;
  std::vector<double> high_kg_per_m2;
};

/// The steady monthly method: it may say that there is a risk, and never that there is none.
struct DampSteady {
  std::string statement;
  Figure most_kg_per_m2;
  Figure left_kg_per_m2;
};

struct DampCover {
  std::string name;  // bare, or the recipe
  std::string form;  // bare, flat, raised
  std::string statement;
  int n_dries = 0;  // cases
  int n_wetter = 0;
  int n_not_shown = 0;
  Figure wood_percent;             // most of a month in the last year
  Figure wood_months_above_20;     // in the last year
  Figure driest_humidity_percent;  // of the wettest place, in the driest month of the last year
  Figure left_kg_per_m2;
  Figure mould_index;
  DampSeries series;
  std::vector<DampCase> cases;  // the likely one first
  DampSteady steady;
};

/// Mould on inner faces by months, from the room's own humidity.
struct DampSurface {
  Figure needed_factor;
  Figure deck_factor;
  Figure edge_factor;  // bare edges and parapets
  int month = 0;       // in which most is needed; 0: none is colder than the room
  std::string statement;
};

struct DampAnswer {
  bool is_run = false;
  std::string because;          // why not
  std::string statement;        // the whole answer in a sentence
  std::string short_statement;  // for a terminal; empty where there is nothing to worry about
  std::string professional;
  std::string room;
  std::string weather;
  std::string deck;      // how it was taken
  int first_month = 10;  // of the series
  int n_years = 0;
  int n_runs = 0;
  double water_residual_kg_per_m2 = 0.0;  // the worst run
  double heat_residual_frac = 0.0;
  std::vector<DampCover> covers;
  std::vector<std::string> not_run;  // covers, and why
  std::vector<design::Assumption> assumed;
  std::vector<std::string> left_out;
  DampSurface surface;
};

}  // namespace houseleek::report
