#!/bin/sh
# The sample jobs' workbooks, written by the program, judged by an independent spreadsheet program: every formula cell
# recalculated gives the stored cents, a changed input gives what the program itself gives for it, the first sheet prints
# on one page, and the same book gives the same bytes.
#   workbooks.sh PROGRAM FOLDER
set -eu
program=$1
out=$2
here=$(cd "$(dirname "$0")" && pwd)
[ -n "${NONRUNNER_HELD_OFFICE:-}" ] || exec /usr/bin/python3 "$here/office.py" hold sh "$0" "$@"
samples=$here/../../sample-jobs
mkdir -p "$out"
export NONRUNNER_BOOK="$out/shop.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" post "$samples/sprat/events.toml" >/dev/null
"$program" post "$samples/drayman/events.toml" >/dev/null
"$program" workbook profit sprat "$out/sprat-profit.xlsx"
"$program" workbook profit drayman "$out/drayman-profit.xlsx"
"$program" workbook job sprat "$out/sprat-job.xlsx"
"$program" workbook year 2025 "$out/year-2025.xlsx"
"$program" workbook year 2026 "$out/year-2026.xlsx"
"$program" workbook shopping "$out/shopping.xlsx"
for kind in profit job; do
  "$program" workbook $kind sprat "$out/again.xlsx" && cmp "$out/sprat-$kind.xlsx" "$out/again.xlsx"
done
"$program" workbook year 2025 "$out/again.xlsx" && cmp "$out/year-2025.xlsx" "$out/again.xlsx"
rm "$out/again.xlsx"
for job in sprat drayman troupe; do
  for file in job by-comparables; do
    "$program" appraise "$samples/$job/$file.toml" --workbook "$out/$job-appraisal-$file.xlsx" >/dev/null
  done
done
"$program" workbook appraisal sprat "$out/sprat-appraisal-kept.xlsx"
/usr/bin/python3 "$here/package.py" "$out"/*.xlsx
/usr/bin/python3 "$here/recalculate.py" "$out"/*.xlsx
/usr/bin/python3 "$here/pages.py" "$out"/*.xlsx
/usr/bin/python3 "$here/year_identities.py" "$out/year-2025.xlsx" "$out/year-2026.xlsx"

# What was never bought differs by its quantity alone: the pickup was taken apart, not welded. What was not in the
# estimate stands first, in the money and in the hours, and the others by the size of their variance.
/usr/bin/python3 - "$out/drayman-profit.xlsx" "$out/sprat-profit.xlsx" <<'PYTHON'
import openpyxl, sys
for path in sys.argv[1:]:
    book = openpyxl.load_workbook(path, data_only=True)
    rows = [row for sheet in ("VarianceMoney", "VarianceHours") for row in book[sheet].iter_rows(values_only=True)]
    numbered, lists = [row for row in rows if isinstance(row[0], (int, float))], []
    for row in numbered:
        lists += [[]] if row[0] == 1 else []
        lists[-1].append(row)
    assert len(lists) == 2, path
    for each in lists:
        for before, after in zip(each, each[1:]):
            strays = [row[2] == "not in the estimate" for row in (before, after)]
            assert strays[0] >= strays[1], (path, before, after)
            if strays[0] == strays[1]:
                size = (lambda row: row[9]) if strays[0] else (lambda row: abs(row[9]))
                assert size(before) >= size(after), (path, before, after)
    if "drayman" in path:
        never = next(row for row in numbered if row[1].startswith("frame sections welded"))
        assert never[5:10] == (0, 0, 0, -1983.33, -1983.33), never
    else:
        assert [row[1] for row in lists[1]][:3] == ["discovery", "pulling parts at the yard", "readying"], lists[1]
PYTHON

# Another sale price in the sheet, against the program with that price in its events.
answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/sprat-profit.xlsx" --set sale_price=3100 --names cash_profit,profit,break_even_price)
export NONRUNNER_BOOK="$out/other.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
(cd "$samples/sprat" && sed 's/price = 3250.00/price = 3100.00/' events.toml | "$program" post - >/dev/null)
"$program" show sprat --json >"$out/other.json"
/usr/bin/python3 - "$answer" "$out/other.json" <<'PYTHON'
import json, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
for name, value in sheet.items():
    assert abs(float(program[name]) - value) < 0.005, (name, program[name], value)
print("with the sale price 3100:", ", ".join(f"{name} {value}" for name, value in sheet.items()), "in both")
PYTHON

# A car that is not sold yet: the sheet's break-even price with what is still to come is the one that the program shows,
# and a car that was only looked at has no profit report.
export NONRUNNER_BOOK="$out/owned.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" owner in 2500 --purse cash --date 2026-04-01 >/dev/null
"$program" buy sprat 800 --fee title=62 --purse cash --date 2026-04-04 --job "$samples/sprat/job.toml" >/dev/null
"$program" receipt sprat 61.37 "radiator" --source salvage --supplier "Cleave Yard" --date 2026-04-05 >/dev/null
"$program" workbook profit sprat "$out/owned-profit.xlsx" >/dev/null
"$program" show sprat --json >"$out/owned.json"
answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/owned-profit.xlsx" --names break_even_price,break_even_price_with_what_is_to_come)
/usr/bin/python3 - "$answer" "$out/owned.json" <<'PYTHON'
import json, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
told = sheet["break_even_price_with_what_is_to_come"]
assert abs(float(program["break_even_price"]) - told) < 0.005, (program["break_even_price"], told)
assert sheet["break_even_price"] < told, sheet
print("not sold yet: break-even price", told, "with what is to come, in both; spent so far only:", sheet["break_even_price"])
PYTHON
/usr/bin/python3 "$here/recalculate.py" "$out/owned-profit.xlsx"
"$program" pass heron --date 2026-04-06 >/dev/null
if said=$("$program" workbook profit heron "$out/passed.xlsx" 2>&1); then
  echo "a passed car got a profit report"
  exit 1
fi
[ "$said" = "nonrunner: workbook: found heron passed on 2026-04-06, expected a vehicle that was bought; what looking at it cost stands in: nonrunner show heron" ] ||
  { echo "$said"; exit 1; }
[ ! -e "$out/passed.xlsx" ]

# A job in work, an advert and a kept deposit booked: another price of a part that is not bought yet and other hours in the
# sheet, against the program with these in the job file.
sed -e '/"head gasket set"/s/new = 128.00/new = 140.50/' -e '/"clean and measure"/s/hours = \[[^]]*\]/hours = 2.4/' \
  "$samples/sprat/job.toml" >"$out/other-job.toml"
grep -q 'new = 140.50' "$out/other-job.toml" && grep -q 'hours = 2.4' "$out/other-job.toml"
for job in "$samples/sprat/job.toml" "$out/other-job.toml"; do
  export NONRUNNER_BOOK="$out/work-$(basename "$job").book"
  "$program" start "$NONRUNNER_BOOK" >/dev/null
  "$program" owner in 2500 --purse cash --date 2026-04-01 >/dev/null
  "$program" buy sprat 800 --fee title=62 --date 2026-04-04 --job "$job" >/dev/null
  "$program" receipt sprat 61.37 "radiator" --source salvage --supplier "Cleave Yard" --date 2026-04-05 >/dev/null
  "$program" hours sprat 0.7 "clean and measure" --date 2026-04-06 >/dev/null
  "$program" cost sprat 25 advert --date 2026-04-06 >/dev/null
  "$program" deposit sprat 100 --date 2026-04-06 >/dev/null
  "$program" deposit sprat 100 --kept --date 2026-04-06 >/dev/null
  "$program" recover sprat 30 "hub caps" --date 2026-04-06 >/dev/null
done
"$program" show sprat --json >"$out/other.json"
hours=$(/usr/bin/python3 -c 'import json, sys
print(next(round(each["expected"], 3) for each in json.load(open(sys.argv[1]))["budget"]["hours"] if each["operation"] == "clean and measure"))' "$out/other.json")
export NONRUNNER_BOOK="$out/work-job.toml.book"
"$program" workbook job sprat "$out/work.xlsx" >/dev/null
/usr/bin/python3 "$here/recalculate.py" "$out/work.xlsx"
cell() { /usr/bin/python3 "$here/recalculate.py" "$out/work.xlsx" --find "$1" | sed "s/.*[A-Z]/$2/"; }
answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/work.xlsx" --set "Costs!$(cell "Costs!B=head gasket set" D)=140.5" \
  --set "Hours!$(cell "Hours!A=clean and measure" B)=$hours" --names break_even_price,cost_to_complete,own_hours_to_complete)
/usr/bin/python3 - "$answer" "$out/other.json" <<'PYTHON'
import json, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
told = {"break_even_price": program["break_even_price"], "cost_to_complete": program["budget"]["cash_to_come"],
        "own_hours_to_complete": program["budget"]["hours_to_come"]}
for name, value in sheet.items():
    assert abs(float(told[name]) - value) < 0.005, (name, told[name], value)
print("in work, a part at 140.50:", ", ".join(f"{name} {value}" for name, value in sheet.items()), "in both")
PYTHON

# Another asking price and another hour in the appraisal, against the program with these in the job file.
answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/sprat-appraisal-job.xlsx" --set asking_price=1300 --set shop_hour=25 \
  --names expected_cash_profit,expected_profit,limit_by_profit)
sed 's/^hour  .*/hour = 25/' "$samples/sprat/job.toml" >"$out/other-hour.toml"
grep -q '^hour = 25' "$out/other-hour.toml"
"$program" appraise "$out/other-hour.toml" --offer 1300 --json >"$out/other.json"
/usr/bin/python3 - "$answer" "$out/other.json" <<'PYTHON'
import json, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
told = {"expected_cash_profit": program["expected"]["cash_profit"], "expected_profit": program["expected"]["profit"],
        "limit_by_profit": program["walk_away"]["limits"]["profit"]}
for name, value in sheet.items():
    assert abs(float(told[name]) - value) < 0.0051, (name, told[name], value)
print("asking 1300, hour 25:", ", ".join(f"{name} {value}" for name, value in sheet.items()), "in both")
PYTHON

# What to name when haggling follows fees, hour and odds, and says what the program says.
sed -e 's/^fees   = 157/fees   = 400/' -e '/^name       = "thermostat stuck shut"/,/^odds/s/^odds .*/odds = 44/' "$out/other-hour.toml" >"$out/haggling.toml"
grep -q '^fees   = 400' "$out/haggling.toml" && grep -q '^odds = 44' "$out/haggling.toml"
"$program" appraise "$out/haggling.toml" --json >"$out/other.json"
/usr/bin/python3 "$here/haggling.py" "$out/sprat-appraisal-job.xlsx" "$out/other.json" "Basis!A=Fees on purchase>B=400" "Basis!A=Shop's hour>B=25" \
  "Courses!A=thermostat stuck shut>C=0.44"
"$program" appraise "$samples/troupe/job.toml" --json >"$out/other.json"
/usr/bin/python3 "$here/haggling.py" "$out/troupe-appraisal-job.xlsx" "$out/other.json"

# Hours in the sheet are those of the job file: the pace and the hours of opening up typed in, against the program.
for line in "hours = 4" "pace = 1.5"; do
  sed "0,/^${line%% =*} *= \[.*/s//$line/" "$samples/sprat/job.toml" >"$out/other-hours.toml"
  grep -q "^$line" "$out/other-hours.toml"
  name=${line%% =*}
  [ "$name" = pace ] || name=opening_up_hours
  answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/sprat-appraisal-job.xlsx" --set "$name=${line##*= }" \
    --names expected_cash_profit,expected_profit,expected_own_hours,expected_days,limit_by_profit)
  "$program" appraise "$out/other-hours.toml" --json >"$out/other.json"
  /usr/bin/python3 - "$answer" "$out/other.json" "$line" <<'PYTHON'
import json, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
told = {"expected_cash_profit": program["expected"]["cash_profit"], "expected_profit": program["expected"]["profit"],
        "expected_own_hours": program["expected"]["own_hours"], "expected_days": program["expected"]["days"],
        "limit_by_profit": program["walk_away"]["limits"]["profit"]}
for name, value in sheet.items():
    assert abs(float(told[name]) - value) < 0.0051, (sys.argv[3], name, told[name], value)
print(f"{sys.argv[3]}:", ", ".join(f"{name} {value}" for name, value in sheet.items()), "in both")
PYTHON
done

# An auction's fee by bands, a place that could earn and a cause that is opened up in its own way stand in the sheet as in
# the program; another price asked there falls into another band, and the chance of a loss follows it.
sed -e 's/^asking = 1450/asking = 1450\nfee_bands = [[0, 90], [900, 140], [1200, 210]]/' -e 's/^hour  .*/hour = 20\nbay_per_day = 4/' \
  -e '/^name       = "head gasket leaking"/a opening_up = { hours = 3, cash = 25 }' "$samples/sprat/job.toml" >"$out/auction.toml"
grep -q fee_bands "$out/auction.toml" && grep -q bay_per_day "$out/auction.toml" && grep -q opening_up.= "$out/auction.toml"
"$program" appraise "$out/auction.toml" --workbook "$out/auction.xlsx" >/dev/null
/usr/bin/python3 "$here/recalculate.py" "$out/auction.xlsx"
/usr/bin/python3 "$here/pages.py" "$out/auction.xlsx"
for price in 1100 1250; do
  answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/auction.xlsx" --set asking_price=$price \
    --names expected_cash_profit,expected_profit,expected_own_hours,expected_days,limit_by_profit,chance_of_loss)
  "$program" appraise "$out/auction.toml" --offer $price --json >"$out/other.json"
  /usr/bin/python3 - "$answer" "$out/other.json" "$price" <<'PYTHON'
import json, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
told = {"expected_cash_profit": program["expected"]["cash_profit"], "expected_profit": program["expected"]["profit"],
        "expected_own_hours": program["expected"]["own_hours"], "expected_days": program["expected"]["days"],
        "limit_by_profit": program["walk_away"]["limits"]["profit"]}
for name, value in told.items():
    assert abs(float(value) - sheet[name]) < 0.0051, (sys.argv[3], name, value, sheet[name])
# A thousand of the points stand in the sheet, the program has them all.
assert abs(program["risk"]["loss_chance"] - sheet["chance_of_loss"]) < 0.002, (program["risk"]["loss_chance"], sheet)
print(f"asking {sys.argv[3]}, with bands:", ", ".join(f"{name} {value}" for name, value in sheet.items()), "in both")
PYTHON
done

# A correction longer than a page: its lines go on under the same headings, in the appraisal and in the job.
awk '{ print }
  /name = "head bolt set"/ { for (i = 1; i <= 75; i++) printf "  { name = \"gasket %02d of the set\", qty = 1, new = %d.25, use = \"new\" },\n", i, i }
  /name = "clean and measure"/ { for (i = 1; i <= 75; i++) printf "  { name = \"face %02d cleaned\", hours = [0.1, 0.2, 0.4] },\n", i }' \
  "$samples/sprat/job.toml" >"$out/long.toml"
grep -q 'gasket 75' "$out/long.toml" && grep -q 'face 75' "$out/long.toml"
export NONRUNNER_BOOK="$out/long.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" owner in 5000 --purse cash --date 2026-04-01 >/dev/null
"$program" buy sprat 800 --date 2026-04-04 --job "$out/long.toml" >/dev/null
"$program" note sprat "wet between cylinders" --cause "head gasket leaking" --date 2026-04-05 >/dev/null
"$program" appraise "$out/long.toml" --workbook "$out/long-appraisal.xlsx" >/dev/null
"$program" workbook job sprat "$out/long-job.xlsx" >/dev/null
"$program" workbook shopping "$out/long-shopping.xlsx" >/dev/null
/usr/bin/python3 "$here/recalculate.py" "$out"/long-*.xlsx
/usr/bin/python3 "$here/pages.py" "$out"/long-*.xlsx

# More operations than a page can draw: the picture stands whole on its page, and says how many it leaves out.
export NONRUNNER_BOOK="$out/many.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
awk 'BEGIN {
  print "event = [{ do = \"buy\", date = 2025-02-01, vehicle = \"pip\", price = 700.00, purse = \"cash\" },"
  for (i = 1; i <= 63; i++)
    printf "{ do = \"hours\", date = 2025-02-%02d, vehicle = \"pip\", operation = \"operation %02d of many\", own = 1.5 },\n", 2 + i / 3, i
  print "]" }' | "$program" post - >/dev/null
"$program" workbook profit pip "$out/many-profit.xlsx" >/dev/null
"$program" workbook job pip "$out/many-job.xlsx" >/dev/null
/usr/bin/python3 - "$out/many-profit.xlsx" <<'PYTHON'
import sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as package:
    charts = "".join(package.read(name).decode() for name in package.namelist() if name.startswith("xl/charts/chart"))
assert "Hours by operation; the first 32 of 63" in charts
PYTHON
/usr/bin/python3 "$here/pages.py" "$out"/many-*.xlsx

# A commission agreed as a share goes with the price: another price typed in, against the program with that price.
for price in 2100 2500; do
  export NONRUNNER_BOOK="$out/commission-$price.book"
  "$program" start "$NONRUNNER_BOOK" >/dev/null
  "$program" buy pip 1000 --purse cash --date 2026-01-02 >/dev/null
  "$program" sell pip $price --commission 3% --cost advert=15 --date 2026-03-01 >/dev/null
done
NONRUNNER_BOOK="$out/commission-2100.book" "$program" workbook profit pip "$out/commission.xlsx" >/dev/null
answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/commission.xlsx" --set sale_price=2500 --names cash_profit,break_even_price)
"$program" show pip --json >"$out/other.json"
/usr/bin/python3 - "$answer" "$out/other.json" "$out/commission.xlsx" <<'PYTHON'
import json, openpyxl, sys
sheet, program = json.loads(sys.argv[1]), json.load(open(sys.argv[2]))
for name, value in sheet.items():
    assert abs(float(program[name]) - value) < 0.005, (name, program[name], value)
# The break-even price lies far below the price got: the picture's lines go on as far as it.
rows = list(openpyxl.load_workbook(sys.argv[3], data_only=True)["Price"].iter_rows(values_only=True))
at = next(i for i, row in enumerate(rows) if row[0] == "Sale price")
prices = [row[0] for row in rows[at + 1:at + 14]]
assert prices[0] == 1046.4 and prices[-1] == 2730 and prices == sorted(prices), prices
assert abs(rows[at + 1][1]) < 0.02, rows[at + 1]
assert abs(sheet["cash_profit"] - (2500 * 0.97 - 1015)) < 0.005, sheet  # by hand
print("with a commission of 3 % and the sale price 2500:", ", ".join(f"{name} {value}" for name, value in sheet.items()), "in both")
PYTHON

# Names that are not to be handed on stand nowhere in the file, whatever became of the entry that says them.
export NONRUNNER_BOOK="$out/names.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" buy pip 900 --purse cash --from "Ottoline Marsh" --odometer 118400 --date 2025-04-04 >/dev/null
"$program" hours pip 2 "front brakes" --paid 16 --who "Ambrose Tull" --purse cash --date 2025-04-05 >/dev/null
"$program" sell pip 2950 --to "Perpetua Vance" --odometer 118466 --purse cash --date 2025-05-02 >/dev/null
"$program" void 3 --later 2025-05-06 --why "the cheque was bad" >/dev/null
"$program" sell pip 2850 --to "Ludo Finch" --odometer 118466 --purse cash --date 2025-05-09 >/dev/null
for words in "year 2025" "profit pip" "profit pip --short"; do
  for initials in "" --initials; do
    # shellcheck disable=SC2086
    "$program" workbook $words "$out/names.xlsx" $initials >/dev/null
    /usr/bin/python3 - "$out/names.xlsx" "$words$initials" <<'PYTHON'
import sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as package:
    whole = "".join(package.read(part).decode() for part in package.namelist())
found = [name for name in ("Ottoline", "Marsh", "Ambrose", "Tull", "Perpetua", "Vance", "Ludo", "Finch") if name in whole]
assert bool(found) != sys.argv[2].endswith("--initials"), (sys.argv[2], found)
PYTHON
  done
done

# Three cars sold on one day: the year after still holds twelve months with three, and reaches a limit of three.
export NONRUNNER_BOOK="$out/limit.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" set dealer-limit 3 >/dev/null
for tag in wren teal pip ox; do "$program" buy $tag 100 --purse cash --date 2025-01-02 >/dev/null; done
for tag in wren teal pip; do "$program" sell $tag 200 --date 2025-03-01 >/dev/null; done
"$program" sell ox 200 --date 2026-06-01 >/dev/null
"$program" workbook year 2026 "$out/limit.xlsx" >/dev/null
answer=$(/usr/bin/python3 "$here/recalculate.py" "$out/limit.xlsx" --names most_sales_in_twelve_months)
[ "$answer" = '{"most_sales_in_twelve_months": 3}' ] || { echo "most sales in twelve months: $answer"; exit 1; }
/usr/bin/python3 "$here/recalculate.py" "$out/limit.xlsx"

# No column of any list is one that nobody fills.
sh "$here/every_column.sh" "$program" "$out/every"
