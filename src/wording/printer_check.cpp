// The words of the printer check page.
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

PrinterCheckContent printer_check_content(const RoomAnswer& answers, const Document& document,
                                          const Words& w) {
  const Room& room = *answers.room;
  PrinterCheckContent out;
  out.title = title_of(document.chart, "Printer check", w);
  out.across = in_millimetres(kCheckAcross);
  out.down = in_millimetres(kCheckDown);
  out.from_edge = in_millimetres(kCheckFromEdge);
  const std::string across = figure(out.across, 0);
  const std::string down = figure(out.down, 0);
  out.paragraphs = {
      w.say("Print this at 100 %, without \"fit to page\", on the paper and from the tray that the "
            "labels come from. It is never corrected itself."),
      w.say("Measure with a ruler that you trust, to a quarter of a millimetre, and write down the "
            "four figures. The two distances are those of the middle of the top left cross from "
            "the left and the top edge of the paper: {1} if the printer is true.",
            {length_text(kCheckFromEdge)}),
      w.say("Then write them into the description, below \"room\", across before down:") +
          "\nprinter: {cross: 10 x 10 mm, rulers: " + across + " x " + down + " mm}",
      w.say("Label sheets are printed by them.")};
  out.fields = {{w.say("the cross, from the left edge"), "mm"},
                {w.say("the cross, from the top edge"), "mm"},
                {w.say("the ruler across, 0 to {1}", {across}), "mm"},
                {w.say("the ruler down, 0 to {1}", {down}), "mm"}};
  out.greys = w.say("These five must look different, also on a photocopy:");
  out.sizes = w.say("The smallest line that you read without effort:");
  out.sample =
      w.say("{1} and {2}, {3} and {4}, {5} and {6}; {7}",
            {w.quantity("0.5 mL"), "5 mL", "10 g", "70 g", "1 L", "7 L", "P305+P351+P338"});
  out.decimal_sign = w.decimal_sign();
  out.foot = foot_words(room, document.chart, w);
  return out;
}

}  // namespace dosewright
