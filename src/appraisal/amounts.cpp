#include "appraisal/amounts.h"

namespace nonrunner::appraisal {

void for_each_amount(
    Job& job, const std::function<void(const std::string&, Amount&, const AmountOwner&)>& visit_owned) {
  AmountOwner owner;
  using Unit = AmountUnit;
  const auto visit = [&](const std::string& name, Amount& amount, Unit unit = Unit::money) {
    owner.unit = unit;
    visit_owned(name, amount, owner);
  };
  visit("fees on purchase", job.deal.fees);
  visit("pace", job.shop.pace, Unit::factor);
  visit("days of waiting", job.shop.wait_days, Unit::days);
  visit("days to sell", job.sale.days, Unit::days);
  visit("costs of the sale", job.sale.costs);
  visit("hours: opening up", job.opening_up.hours, Unit::hours);
  visit("cash: opening up", job.opening_up.cash);
  const auto pieces = [&](std::optional<PartOut>& part_out, const std::string& of) {
    if (!part_out) return;
    visit("proceeds of the pieces" + of, part_out->proceeds);
    visit("hours: parting out" + of, part_out->hours, Unit::hours);
    visit("costs of parting out" + of, part_out->costs);
  };
  const auto scrapped = [&](std::optional<Scrap>& scrap, const std::string& of) {
    if (!scrap) return;
    visit("scrap value" + of, scrap->value);
    visit("costs of scrapping" + of, scrap->costs);
  };
  for (std::size_t c = 0; c < job.causes.size(); ++c) {
    Cause& cause = job.causes[c];
    owner = {c, std::nullopt, Unit::money};
    const std::string of = " (" + cause.name + ")";
    if (cause.found) visit("as found: " + cause.name, *cause.found);
    if (cause.opening_hours) visit("hours: opening up" + of, *cause.opening_hours, Unit::hours);
    if (cause.opening_cash) visit("cash: opening up" + of, *cause.opening_cash);
    pieces(cause.part_out, of);
    scrapped(cause.scrap, of);
  }
  for (std::size_t i = 0; i < job.corrections.size(); ++i) {
    Correction& correction = job.corrections[i];
    owner = {std::nullopt, i, Unit::money};
    const std::string of = " (" + correction.name + ")";
    for (Operation& operation : correction.operations)
      visit("hours: " + operation.name + of, operation.hours, Unit::hours);
    for (Part& part : correction.parts) {
      for (const Source source : all_sources)
        if (auto& price = part.price[static_cast<std::size_t>(source)])
          visit(part.name + ", " + name_of(source) + of, *price);
      visit("hours: pulling " + part.name + of, part.pull_hours, Unit::hours);
    }
    for (Consumable& consumable : correction.consumables) visit(consumable.name + of, consumable.price);
    for (Sublet& sublet : correction.sublets) visit(sublet.name + of, sublet.price);
    visit("lasting mark" + of, correction.takes_off);
  }
  owner = {};
  pieces(job.part_out, "");
  scrapped(job.scrap, "");
  for (Trouble& trouble : job.troubles) {
    visit("cash: " + trouble.name, trouble.cash);
    visit("hours: " + trouble.name, trouble.hours, Unit::hours);
    visit("lasting mark: " + trouble.name, trouble.takes_off);
    visit("less as found: " + trouble.name, trouble.found_less);
  }
  for (Fault& fault : job.faults) {
    visit("takes off: " + fault.name, fault.takes_off);
    for (Fix& fix : fault.fixes) {
      visit("cash: " + fix.name + " (" + fault.name + ")", fix.cash);
      visit("hours: " + fix.name + " (" + fault.name + ")", fix.hours, Unit::hours);
    }
  }
}

}  // namespace nonrunner::appraisal
