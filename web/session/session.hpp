#pragma once
// Session: the boat in hand, what the core says of it, and the way back. Panels read it and ask it for edits;
// a refused edit leaves everything as it was.
#include <cstdint>
#include <memory>
#include <optional>
#include <pondtrim/estimate.hpp>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>
#include <pondtrim/report.hpp>
#include <pondtrim/scale.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "session/mesh_import.hpp"
#include "session/quantities.hpp"
#include "session/studies.hpp"

namespace pondtrim {

/// A boat with the core's answers. Shared, never changed: undo keeps these, so a step back costs no solving.
struct SolvedBoat {
  file::BoatDocument document;
  Model model;
  Report empty;  ///< tank empty
  Report full;   ///< tank full; as `empty` for a boat without tank
};

/// What the person chose about the app, not about a boat.
struct Preferences {
  bool inches = false;        ///< inches and ounces instead of millimetres and grams
  bool sixteenths = true;     ///< inches with fractions instead of decimals
  bool cubic_inches = false;  ///< instead of fluid ounces
  bool night = false;         ///< pale on dark
  enum class Letters { Usual, Large, Largest } letters = Letters::Usual;  ///< 1, 1.5 and 2 times the size
  [[nodiscard]] UnitSet units() const;
  bool operator==(const Preferences&) const = default;
};

/// Which skin, cylinder or part is being looked at.
struct Selection {
  Owner owner = Owner::Part;
  std::size_t index = 0;
  bool operator==(const Selection&) const = default;
};

struct Notice {
  enum class Kind { Said, Refused };
  Kind kind = Kind::Said;
  std::string text;   ///< in the person's units
  std::string field;  ///< of a refusal: the path of the number at fault
};

/// A boat on the way back or forth. One from an earlier visit is text until it is wanted.
struct Step {
  std::shared_ptr<const SolvedBoat> solved;
  std::string text;          ///< the boat file, when `solved` is empty
  std::uint64_t number = 0;  ///< its own for as long as the history lives
  std::string shelf_place;   ///< as Session::shelfPlace
  [[nodiscard]] std::string boatFile() const;
};

class Session {
 public:
  /// Error: the boat's numbers are wrong (as buildModel), or it cannot be solved.
  [[nodiscard]] static Result<Session> start(file::BoatDocument document, Preferences preferences = {});

  [[nodiscard]] const Boat& boat() const { return now_->document.boat; }
  [[nodiscard]] const file::BoatDocument& document() const { return now_->document; }
  [[nodiscard]] const Model& model() const { return now_->model; }
  [[nodiscard]] const Report& empty() const { return now_->empty; }
  [[nodiscard]] const Report& full() const { return now_->full; }
  /// At the slider's fill.
  [[nodiscard]] const Report& atFill() const { return at_fill_; }
  /// The boat under the draft, or before the last edit, at the slider's fill; empty when there was none.
  [[nodiscard]] const std::optional<Report>& before() const { return before_; }
  /// The dive of that boat, when it was looked at; empty when it was not.
  [[nodiscard]] const std::optional<DiveSweep>& diveBefore() const { return dive_before_; }
  /// Changes with every boat: what is drawn from it must be made again.
  [[nodiscard]] std::uint64_t revision() const { return revision_; }

  /// Share of the tank's capacity, 0 to 1.
  [[nodiscard]] double fillShare() const { return fill_share_; }
  void setFillShare(double share);

  /// Of the boat in hand.
  [[nodiscard]] Studies& studies() { return studies_; }
  /// How deep she is to go: pump, gas and cylinder are asked about this [m].
  [[nodiscard]] double depth() const { return depth_; }
  /// Error: "depth" outside what the core answers for; `notice` says so.
  Result<void> setDepth(double depth);
  /// Diameter of the scope that shows when the sail is under [m]; not part of the boat.
  [[nodiscard]] double scope() const { return scope_; }
  /// Error: "scope" outside 0.5 to 100 mm; as it was.
  Result<void> setScope(double diameter);

  /// What is typed for a new boat, and for the full-size one that she is a model of.
  [[nodiscard]] const RoughBoat& rough() const { return rough_; }
  void setRough(const RoughBoat& rough) { rough_ = rough; }
  [[nodiscard]] const FullSize& fullSize() const { return full_size_; }
  void setFullSize(const FullSize& full) { full_size_ = full; }

  /// A hull on its way from a file into the boat.
  [[nodiscard]] MeshImport& meshImport() { return mesh_import_; }
  [[nodiscard]] const MeshImport& meshImport() const { return mesh_import_; }

  /// What a trim plan is to aim at.
  [[nodiscard]] const PlanRequest& planWish() const { return plan_wish_; }
  void setPlanWish(const PlanRequest& wish) { plan_wish_ = wish; }

  /// Replaces the boat by a changed copy. Edits with the same `gesture` (other than 0) make one step of undo.
  /// Error: the changed boat is refused; the boat in hand and the history stay, `notice` says why.
  Result<void> edit(const Boat& changed, std::uint64_t gesture = 0);
  /// Another boat altogether; one step of undo leads back.
  Result<void> open(file::BoatDocument document);

  // ---- A draft: a copy of the boat to try changes on. While there is one, it is the boat in hand.
  [[nodiscard]] bool inDraft() const { return draft_.has_value(); }
  [[nodiscard]] const std::string& draftName() const { return draft_->name; }
  void nameDraft(std::string name) { draft_->name = std::move(name), ++revision_; }
  /// The boat that the draft stands over; without one, the boat in hand.
  [[nodiscard]] const SolvedBoat& base() const { return draft_ ? *draft_->base : *now_; }
  /// Nothing while there is a draft.
  void beginDraft(std::string name);
  /// The draft becomes the boat; one step of undo leads back.
  void keepDraft();
  /// Back to the boat as she was.
  void leaveDraft();

  [[nodiscard]] bool canUndo() const { return !past_.empty(); }
  [[nodiscard]] bool canRedo() const { return !future_.empty(); }
  void undo();
  void redo();
  [[nodiscard]] const std::vector<Step>& past() const { return past_; }      ///< oldest first
  [[nodiscard]] const std::vector<Step>& future() const { return future_; }  ///< nearest last
  /// The same of the boat under the draft: what is kept for the next visit.
  [[nodiscard]] const std::vector<Step>& keptPast() const { return draft_ ? draft_->past : past_; }
  [[nodiscard]] const std::vector<Step>& keptFuture() const { return draft_ ? draft_->future : future_; }
  /// The name under which the boat in hand stands on the shelf; empty: nowhere. Goes back and forth with her.
  [[nodiscard]] const std::string& shelfPlace() const { return shelf_place_; }
  void setShelfPlace(std::string name) { shelf_place_ = std::move(name); }
  /// The way back and forth of an earlier visit, for a session that has none yet.
  void restoreHistory(std::vector<Step> past, std::vector<Step> future);

  [[nodiscard]] const std::optional<Notice>& notice() const { return notice_; }
  void say(std::string text) { notice_ = Notice{Notice::Kind::Said, std::move(text), {}}; }
  /// `about`: the boat that the error speaks of, if it is not the one in hand.
  void refuse(const Error& error, const Boat* about = nullptr);
  /// An error of the core in the person's words and units; `about` as in refuse.
  [[nodiscard]] std::string inWords(const Error& error, const Boat* about = nullptr) const;
  /// A file that is no boat; the error is in the file's terms already.
  void refuseFile(std::string_view name, const Error& error);
  /// The last refusal speaks of what follows from the number at `field`: it is told what was asked first.
  void refuseWhatWasAsked(const std::string& asked, const std::string& field);
  void dismissNotice() { notice_.reset(); }

  [[nodiscard]] const std::optional<Selection>& selection() const { return selection_; }
  void select(std::optional<Selection> selection) { selection_ = selection; }

  [[nodiscard]] const Preferences& preferences() const { return preferences_; }
  void setPreferences(const Preferences& preferences);
  [[nodiscard]] const UnitSet& units() const { return units_; }

 private:
  using Solved = std::shared_ptr<const SolvedBoat>;
  Session() = default;
  /// A number that is not of the boat: kept if it is within its range, else refused.
  Result<void> take(double& into, double value, const char* field, double low, double high);
  void show(Solved solved, Solved before);
  void walk(std::vector<Step>& from, std::vector<Step>& to);
  void solveAtFill();

  struct Draft {
    std::string name;
    Solved base;
    std::vector<Step> past, future;  ///< of the base
    std::uint64_t number = 0;
  };
  std::optional<Draft> draft_;
  Solved now_, before_boat_;
  Report at_fill_;
  std::optional<Report> before_;
  std::optional<DiveSweep> dive_before_;
  double fill_share_ = 0.0;
  double depth_ = 1.0;  // a pond
  double scope_ = kScopeDiameter;
  PlanRequest plan_wish_;
  RoughBoat rough_;
  FullSize full_size_;
  MeshImport mesh_import_;
  Studies studies_;
  std::uint64_t revision_ = 0;
  std::uint64_t gesture_ = 0;
  std::vector<Step> past_, future_;
  std::uint64_t number_ = 1, last_number_ = 1;  // of the boat in hand, of the newest
  std::string shelf_place_;
  std::optional<Notice> notice_;
  std::optional<Selection> selection_;
  Preferences preferences_;
  UnitSet units_;
};

/// The boat solved with its tank empty and full; `previous` as in buildModel. Error: as buildModel and
/// evaluate.
[[nodiscard]] Result<std::shared_ptr<const SolvedBoat>> solveBoat(file::BoatDocument document,
                                                                  const Model* previous = nullptr);

}  // namespace pondtrim
