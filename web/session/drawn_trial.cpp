#include "session/drawn_trial.hpp"

#include <cmath>
#include <pondtrim/model.hpp>

namespace pondtrim {

DrawnTrial::DrawnTrial(Boat before, Boat kept, std::size_t skin, Mesh drawn)
    : before_(std::move(before)),
      kept_(std::move(kept)),
      skin_(skin),
      triangles_(drawn.triangles.size() / 3),
      maker_(std::in_place, std::move(drawn),
             isSolid(kept_.skins[skin].form) ? 0.0 : kept_.skins[skin].thickness) {}

Result<void> DrawnTrial::work() {
  if (!maker_ || maker_->step()) return {};
  CutMesh all = maker_->take();
  maker_.reset();
  auto model = buildModel(kept_);
  if (!model) return fail(model.error());
  auto kept = evaluate(*model, {});
  if (!kept) return fail(kept.error());
  refineSkin(*model, skin_, std::move(all));
  auto drawn = evaluate(*model, {});
  if (!drawn) return fail(drawn.error());
  with_kept_ = std::move(*kept);
  with_all_ = std::move(*drawn);
  return {};
}

std::string trialSentence(const DrawnTrial& trial, const UnitSet& units) {
  const Report &all = trial.withAll(), &kept = trial.withKept();
  const std::string whose = "With all " + std::to_string(trial.triangles()) + " triangles she ";
  if (!all.bow || !all.stern || !kept.bow || !kept.stern)
    return whose + "does not float so that her marks could be read.";
  const auto draft = [&](const MarkReading& m) { return valueText(m.draft, Quantity::Length, units); };
  const auto off = [&](const MarkReading& with_kept, const MarkReading& with_all) {
    const double d = with_kept.draft - with_all.draft;
    const std::string size = valueText(std::abs(d), Quantity::Length, units, units.metric() ? 3 : 4);
    return size + (d >= 0 ? " deeper" : " less deep");
  };
  return whose + "floats " + draft(*all.bow) + " deep at the bow mark and " + draft(*all.stern) +
         " at the stern mark; with those that the boat keeps " + off(*kept.bow, *all.bow) + " and " +
         off(*kept.stern, *all.stern) + ".";
}

}  // namespace pondtrim
