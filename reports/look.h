// How a cell looks: what it holds (form) and what it is for (role). The same few looks in every workbook.
//
// An input is told from a result by fill and by a dashed border, a total by a line above and weight, never by
// colour alone. A loss shows a minus sign and, where it is the answer, the word.
#pragma once
#include <compare>
#include <string>

#include "exact/currency.h"

struct lxw_format;
struct lxw_workbook;

namespace nonrunner::reports {

// `text` is what somebody typed and stays text when it is edited; `words` is what a formula says.
// A percentage is rounded for reading, a rate shows all its digits. `money_or_nothing`: zero is an empty cell.
// A factor is no money: its decimals are the same in every currency. `if_set`: a decimal that is said to be not set
// where it is beyond all use.
enum class Form {
  text,
  words,
  money,
  money_or_nothing,
  price,
  decimal,
  factor,
  if_set,
  whole,
  percent,
  rate,
  day,
  month,
  year
};
enum class Role {
  plain,
  input,  // the reader may change it, and the sheet answers
  total,
  heading,  // of a table
  section,  // above a table
  title,
  answer,  // the first thing to read
  figure,  // one of the few that matter
  note,    // small and grey: says what a figure is
  caution,
  box  // empty, to tick or to write in
};

struct Look {
  Form form = Form::text;
  Role role = Role::plain;
  bool wrapped = false;
  enum class Side {
    natural,
    right,
    centre,
    apart
  } side = Side::natural;  // apart: text that follows a number
  bool on_top = false;     // in a row of several lines everything begins on the first; set by the sheet

  auto operator<=>(const Look&) const = default;
};

// What may be typed into an input: said to whoever types something else.
enum class Ask { number, zero_up, above_zero, share, up_to_one, yes_or_no, day };

namespace look {
using Side = Look::Side;
constexpr Look text{}, wrapped{Form::text, Role::plain, true}, text_input{Form::text, Role::input},
    text_apart{Form::text, Role::plain, false, Side::apart};
constexpr Look title{Form::text, Role::title}, section{Form::text, Role::section};
constexpr Look heading{Form::text, Role::heading, true},
    heading_right{Form::text, Role::heading, true, Side::right},
    heading_apart{Form::text, Role::heading, true, Side::apart},
    heading_centre{Form::text, Role::heading, true, Side::centre};
constexpr Look note{Form::text, Role::note}, note_apart{Form::text, Role::note, false, Side::apart};
constexpr Look caution{Form::text, Role::caution, true};
constexpr Look money{Form::money}, money_input{Form::money, Role::input},
    money_total{Form::money, Role::total}, money_note{Form::money, Role::note};
constexpr Look price{Form::price}, price_input{Form::price, Role::input};
constexpr Look decimal{Form::decimal}, decimal_input{Form::decimal, Role::input},
    decimal_total{Form::decimal, Role::total};
constexpr Look factor{Form::factor}, factor_input{Form::factor, Role::input};
constexpr Look if_set_input{Form::if_set, Role::input};
constexpr Look whole{Form::whole}, whole_input{Form::whole, Role::input}, percent{Form::percent},
    percent_input{Form::percent, Role::input};
constexpr Look rate{Form::rate}, rate_input{Form::rate, Role::input};
constexpr Look number{Form::whole, Role::plain, false, Side::centre};  // the number of a row or an entry
constexpr Look day{Form::day}, day_right{Form::day, Role::plain, false, Side::right};
constexpr Look month{Form::month};  // the first day of it, shown without the day
constexpr Look total{Form::text, Role::total}, answer{Form::text, Role::answer},
    figure{Form::text, Role::figure};
constexpr Look answer_money{Form::money, Role::answer}, figure_money{Form::money, Role::figure};
constexpr Look box{Form::text, Role::box}, money_box{Form::money, Role::box};
}  // namespace look

// Notes are told by their grey, not by their size: printed at 73 % of it, 11 points are still 8.
constexpr double body_points = 11, note_points = 11, answer_points = 16, least_points = 8;  // least: on paper

std::string money_format(const Currency&);  // "#,##0.00", with as many decimals as the currency has
// The look as a format of this workbook. Throws std::bad_alloc.
lxw_format* made(Look, const Currency&, lxw_workbook*);

}  // namespace nonrunner::reports
