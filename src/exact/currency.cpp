#include "exact/currency.h"

#include <sstream>
#include <vector>

#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner {

namespace {
// One block for each number of minor digits; the last holds codes that have none (metals, funds, test codes).
struct Block {
  int digits;
  const char* codes;
};
constexpr int no_minor_unit = -1;
constexpr Block blocks[] = {
    {0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF "},
    {2,
     "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP "
     "BYN BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR "
     "FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW "
     "KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN "
     "NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD "
     "SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS "
     "VED VES WST XCD YER ZAR ZMW ZWG "},
    {3, "BHD IQD JOD KWD LYD OMR TND "},
    {4, "CLF UYW "},
    {no_minor_unit, "XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX "},
};
}  // namespace

Currency Currency::of(std::string_view code) {
  std::vector<std::string> known;
  for (const Block& block : blocks) {
    std::istringstream codes(block.codes);
    for (std::string each; codes >> each;) {
      if (each == code && block.digits != no_minor_unit) return {each, block.digits};
      if (block.digits != no_minor_unit) known.push_back(each);
    }
  }
  throw Refusal("currency: found \"" + std::string(code) +
                "\", expected a code of ISO 4217 with a minor unit, such as USD" + did_you_mean(code, known));
}

}  // namespace nonrunner
