// The words of the printer check page.
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

PrinterCheckContent printer_check_content(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  PrinterCheckContent out;
  out.title = document.chart.title;
  out.across = in_millimetres(kCheckAcross);
  out.down = in_millimetres(kCheckDown);
  out.from_edge = in_millimetres(kCheckFromEdge);
  out.paragraphs = {
      "Print this at 100 %, without \"fit to page\", on the paper and from the tray that the "
      "labels "
      "come from. It is never corrected itself.",
      "Measure with a ruler that you trust, to a quarter of a millimetre, and write down the four "
      "figures. The two distances are those of the middle of the top left cross from the left and "
      "the top edge of the paper: " +
          length_text(kCheckFromEdge) + " if the printer is true.",
      "Then write them into the description, below room: printer: {cross: 10 x 10 mm, rulers: " +
          figure(out.across, 0) + " x " + figure(out.down, 0) +
          " mm}, across before down. Label "
          "sheets are printed by them."};
  out.fields = {{"the cross, from the left edge", "mm"},
                {"the cross, from the top edge", "mm"},
                {"the ruler across, 0 to " + figure(out.across, 0), "mm"},
                {"the ruler down, 0 to " + figure(out.down, 0), "mm"}};
  out.greys = "These five must look different, also on a photocopy:";
  out.sizes = "The smallest line that you read without effort:";
  out.sample = "0.5 mL and 5 mL, 10 g and 70 g, 1 L and 7 L; P305+P351+P338";
  out.foot = foot_words(room, document.chart);
  return out;
}

}  // namespace dosewright
