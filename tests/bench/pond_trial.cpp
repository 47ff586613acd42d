// Pond trial: a seeded Monte-Carlo trial of the pond log. True boats differ from the file in ways that are
// not the log's own priors; simulated people read rulers, clinometers and scales, cut what the log says, and
// dip again.
//
// usage: pond_trial PRESET_FOLDER [BOATS] [SEED] [coarse]
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/plan.hpp>
#include <pondtrim/pond_log.hpp>
#include <random>
#include <sstream>

#include "amounts.hpp"

namespace {

using namespace pondtrim;

constexpr double kDegree = kPi / 180;
constexpr int kMostDips = 15;
constexpr double kShort = 0.9995;  // [m]: "under 1 m"

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  double even(double lo, double hi) { return std::uniform_real_distribution<double>(lo, hi)(engine_); }
  double about(double half) { return even(-half, half); }
  double normal(double spread) { return std::normal_distribution<double>(0, spread)(engine_); }
  bool chance(double p) { return even(0, 1) < p; }

 private:
  std::mt19937_64 engine_;
};

double rounded(double v, double step) { return std::round(v / step) * step; }

/// The real boat: its own boat values and the factors that no boat file can say.
struct Truth {
  Boat boat;
  double skin = 1, cylinder = 1, tank = 1, soak = 0;
};

Truth makeTruth(const Boat& file, Dice& dice) {
  Truth t{file};
  for (Part& p : t.boat.parts) {
    if (p.mass)
      p.mass = std::max(0.0, *p.mass * (1 + dice.about(0.03)) + (*p.mass > 0 ? dice.about(0.005) : 0.0));
    const bool mirrored = p.mirrored;  // both pieces move alike
    p.position += Vec3(dice.about(0.005), mirrored ? 0.0 : dice.about(0.005), dice.about(0.005));
  }
  for (SealedCylinder& c : t.boat.cylinders) {
    if (c.mass) c.mass = *c.mass * (1 + dice.about(0.03)) + dice.about(0.005);
  }
  for (Skin& s : t.boat.skins) {
    if (s.mass) s.mass = *s.mass * (1 + dice.about(0.03)) + dice.about(0.005);
  }
  t.skin = 1 + dice.about(0.10);
  t.cylinder = 1 + dice.about(0.01);
  t.tank = 1 + dice.about(0.03);
  // Errors that nobody listed: foam that soaks, a thing forgotten.
  t.soak = dice.chance(0.3) ? 0.03 : 0.0;
  if (dice.chance(0.2)) {
    Part p;
    p.name = "forgotten item";
    p.shape = PointShape{};
    p.mass = 0.04;
    p.position = {dice.even(0.15, 0.85) * file.length, dice.about(0.02),
                  dice.even(0.2, 0.8) * file.marks.deck_height};
    t.boat.parts.push_back(p);
  }
  return t;
}

/// Air caught high in the bow, as a share of the displacement.
void trapAir(Truth& t, double displaced, Dice& dice) {
  if (!dice.chance(0.3)) return;
  const Marks& m = t.boat.marks;
  Part p;
  p.name = "caught air";
  p.role = Role::TrappedAir;
  const double volume = dice.even(0, 0.01) * displaced + 1e-7,
               height = std::max(0.01, m.deck_height - m.line_height);
  p.shape = BoxShape{{volume / (height * 0.04) + 1e-4, 0.04, height}};
  p.volume = volume;
  p.position = {m.bow_x - dice.even(0, 0.1) * t.boat.length, 0, m.line_height + height / 2};
  t.boat.parts.push_back(p);
}

Result<Model> modelOf(const Truth& t, const Model* previous) {
  auto model = buildModel(t.boat, previous);
  if (!model) return model;
  Cut whole;
  for (Displacer& d : model->displacers) {
    double k = 1;
    if (d.source.owner == Owner::Skin) k = t.skin;
    if (d.source.owner == Owner::Cylinder) k = t.cylinder;
    if (d.source.owner == Owner::Part && t.boat.parts[d.source.index].role == Role::Foam) k = 1 - t.soak;
    d.fill *= k;
    d.whole *= k;
    whole += d.whole;
  }
  model->whole_volume = whole.volume;
  model->whole_centroid = whole.moment / whole.volume;
  for (TankCell& cell : model->tank_cells) {
    cell.scale *= t.tank;
    cell.capacity *= t.tank;
  }
  model->tank_capacity *= t.tank;
  return model;
}

/// What the log asks for, done at the bench.
void cut(Truth& t, const std::vector<PondChange>& changes, Dice& dice) {
  for (const PondChange& c : changes) {
    for (Part& p : t.boat.parts) {
      if (p.name != c.part) continue;
      const double by = c.after - c.before;
      if (c.slides) {
        p.position.x += by + dice.normal(0.001);
      } else if (p.role == Role::Foam) {
        setAmount(p, std::clamp(amountOf(p) + by * (1 + dice.about(0.05)), 0.0, roomFor(p)));
      } else {
        setAmount(p, std::clamp(amountOf(p) + by + dice.about(0.001), 0.0, roomFor(p)));
      }
    }
  }
}

constexpr double kLaidStep = 0.005, kLaidAlong = 0.01, kTooHigh = 0.02, kTooSteep = 1.5 * kDegree;

Model withLead(const Model& truth, double mass, const Vec3& at, double density) {
  Model out = truth;
  Correction c;
  c.mass = mass * (1 - density / 11340);
  c.mass_moment = (at - correctionPoint(truth.marks)) * c.mass;
  installCorrection(out, c);
  return out;
}

/// Flooded, and far too high or down by one end: lead laid on deck where it levels her, more and more of it
/// until about the wanted sail shows. The person sees what she does, and reads then.
Model pressedDown(const Model& truth, const Boat& boat, Reading& r, Dice& dice) {
  const Marks& m = truth.marks;
  const auto lies = [&](const Model& model) {
    return findEquilibrium(model, {boat.water, truth.tank_capacity});
  };
  const auto shows = [&](const Equilibrium& seen) {
    return glm::dot(seen.plane.up, m.sail_top) - seen.plane.level;
  };
  const double step = std::max(kLaidStep, rounded(0.003 * truth.mass, kLaidStep));
  const auto right = [&](const Equilibrium& seen) {
    return shows(seen) < boat.aims.sail_showing + kTooHigh && std::abs(seen.attitude.trim) < kTooSteep;
  };
  const auto bare = lies(truth);
  if (!bare || bare->outcome == Outcome::Sinks || right(*bare)) return truth;
  const double density = bare->density;
  Vec3 at(m.sail_top.x, 0, m.deck_height);
  double laid = 0, place = at.x;
  for (double mass = step;; mass += step) {
    double lo = m.stern_x, hi = m.bow_x;  // further forward, more bow down
    for (int i = 0; i < 6; ++i) {
      at.x = rounded((lo + hi) / 2, kLaidAlong);
      const auto report = lies(withLead(truth, mass, at, density));
      if (!report || report->outcome == Outcome::Sinks) break;
      (report->attitude.trim > 0 ? lo : hi) = at.x;
    }
    const auto report = lies(withLead(truth, mass, at, density));
    if (!report || report->outcome == Outcome::Sinks || shows(*report) < 0.005) break;
    laid = mass;
    place = at.x;
    if (right(*report)) break;
  }
  if (laid == 0) return truth;
  r.laid_mass = laid;
  r.held_x = place;
  const Vec3 real(place + dice.normal(0.002), dice.normal(0.002), m.deck_height);
  return withLead(truth, laid + dice.about(0.001), real, density);
}

/// `laden`: lead may be laid on.
Reading dip(const Model& truth_in, const Boat& boat, bool full, bool laden, Dice& dice) {
  Reading r;
  r.tank = full ? TankState::Full : TankState::Empty;
  r.water = boat.water;
  r.installed = installedIn(boat);
  const Model truth = full && laden ? pressedDown(truth_in, boat, r, dice) : truth_in;
  const auto report = evaluate(truth, {boat.water, full ? truth.tank_capacity : 0.0});
  if (!report) std::abort();
  const auto read = [&](double v, double spread, double step) {
    return Measured{rounded(v + dice.normal(spread), step), spread};
  };
  if (report->rest.outcome == Outcome::Sinks) {  // hung from one spring scale, where she hangs about level
    const Marks& m = truth.marks;
    const double pull = -report->net_buoyancy_submerged;
    const Vec3 down = report->centre_of_gravity * report->total_mass -
                      truth.whole_centroid * (truth.whole_volume * report->rest.density);
    r.held_x = rounded(std::clamp(down.x / pull, m.stern_x, m.bow_x), kLaidAlong);
    r.held_z = m.deck_height;
    const Vec3 hook(*r.held_x + dice.normal(0.002), dice.normal(0.002), m.deck_height);
    const Vec3 turning = hook * pull - down;
    const Attitude hangs = Attitude::of(glm::normalize(turning));
    r.pull = read(pull, 0.003, 0.001);
    r.trim = read(hangs.trim, 0.5 * kDegree, 0.1 * kDegree);
    r.heel = read(hangs.heel, 0.5 * kDegree, 0.1 * kDegree);
    return r;
  }
  const Attitude a = report->rest.attitude;
  r.heel = read(a.heel, 0.5 * kDegree, 0.1 * kDegree);
  r.trim = read(a.trim, 0.5 * kDegree, 0.1 * kDegree);
  r.sail_showing = read(report->sail_showing, 0.0015, 0.001);
  if (!full && report->bow) {
    r.bow = read(report->bow->line_above_water, 0.0015, 0.001);
    r.stern = read(report->stern->line_above_water, 0.0015, 0.001);
  }
  return r;
}

bool trulyWithin(const Model& truth, const Boat& boat) {
  const Tolerance tol;
  const auto up = evaluate(truth, {boat.water, 0.0});
  const auto down = evaluate(truth, {boat.water, truth.tank_capacity});
  if (!up || !down || !up->bow || down->rest.outcome == Outcome::Sinks) return false;
  const Plane wanted{Vec3(0, 0, 1), truth.marks.sail_top.z - boat.aims.sail_showing};
  const double net = down->rest.density * cutModel(truth, wanted).volume - down->total_mass;
  return std::abs(up->bow->line_above_water) <= tol.mark &&
         std::abs(up->stern->line_above_water) <= tol.mark && std::abs(up->rest.attitude.heel) <= tol.heel &&
         std::abs(net) <= tol.net && std::abs(down->rest.attitude.trim) <= tol.trim &&
         std::abs(down->rest.attitude.heel) <= tol.heel;
}

struct Trial {
  int dips = 0;
  bool done = false, within = false;
  double length = 0;
};

[[noreturn]] void fatal(const Error& e) {
  std::fprintf(stderr, "%s\n", e.message.c_str());
  std::abort();
}

bool verbose() {
  static const bool on = std::getenv("VERBOSE") != nullptr;
  return on;
}

/// What the log thinks, beside what is so.
void tellStep(const Boat& known, int dips, PondStep step, const Outlook& o, const NextChange& next,
              const Estimate& e, const Model& truth) {
  const char* words[] = {"read empty", "read full", "change", "done"};
  const auto up = evaluate(truth, {known.water, 0.0});
  const auto down = evaluate(truth, {known.water, truth.tank_capacity});
  const Plane wanted{Vec3(0, 0, 1), truth.marks.sail_top.z - known.aims.sail_showing};
  const double net = down->rest.density * cutModel(truth, wanted).volume - down->total_mass;
  std::printf("%s after %d dips: p %.2f (%.2f, %.2f) -> %s, then p %.2f, %zu doubts\n", known.name.c_str(),
              dips, o.probability, o.surfaced_probability, o.dived_probability, words[int(step)],
              next.after.probability, e.doubts.size());
  const auto row = [](const char* what, const Predicted& p, const Predicted& q, double unit, double is) {
    std::printf("   %-12s %7.2f +- %5.2f  (is %7.2f)  after %7.2f +- %5.2f\n", what, p.value / unit,
                p.spread / unit, is / unit, q.value / unit, q.spread / unit);
  };
  row("bow mm", o.bow, next.after.bow, 1e-3, up->bow ? up->bow->line_above_water : 9);
  row("stern mm", o.stern, next.after.stern, 1e-3, up->stern ? up->stern->line_above_water : 9);
  row("heel deg", o.heel, next.after.heel, kDegree, up->rest.attitude.heel);
  row("net g", o.dived_net, next.after.dived_net, 1e-3, net);
  row("trim deg", o.dived_trim, next.after.dived_trim, kDegree, down->rest.attitude.trim);
  row("heel deg", o.dived_heel, next.after.dived_heel, kDegree, down->rest.attitude.heel);
  if (step == PondStep::Change) {
    for (const PondChange& c : next.changes)
      std::printf("   . %s %g -> %g\n", c.part.c_str(), c.before * 1e3, c.after * 1e3);
  }
}

Trial play(const Boat& file, const Model& file_model, Dice& dice) {
  Truth truth = makeTruth(file, dice);
  trapAir(truth, file_model.whole_volume, dice);
  Boat known = file;
  known.log.clear();
  Trial t;
  t.length = file.length;
  auto model = modelOf(truth, &file_model);
  while (t.dips < kMostDips) {
    if (!model) std::abort();
    const auto estimate = estimateCorrection(known, {}, &file_model);
    if (!estimate) fatal(estimate.error());
    const auto outlook = predict(known, *estimate, {}, &file_model);
    if (!outlook) fatal(outlook.error());
    const auto next = changeMatters(*outlook) ? nextChange(known, *estimate, {}, &file_model)
                                              : Result<NextChange>(NextChange{});
    if (!next) fatal(next.error());
    const PondStep step = nextStep(*outlook, *next);
    if (verbose()) tellStep(known, t.dips, step, *outlook, *next, *estimate, *model);
    if (step == PondStep::Done) {
      t.done = true;
      t.within = trulyWithin(*model, known);
      break;
    }
    if (step == PondStep::Change) {
      cut(truth, next->changes, dice);
      Boat changed = next->boat;
      changed.log = known.log;
      known = std::move(changed);
      model = modelOf(truth, &file_model);
      continue;
    }
    known.log.push_back(dip(*model, known, step == PondStep::ReadFull, !outlook->read_unladen, dice));
    ++t.dips;
    if (verbose()) {
      const Reading& r = known.log.back();
      const auto say = [](const char* w, const std::optional<Measured>& v, double unit) {
        if (v) std::printf(" %s %.1f", w, v->value / unit);
      };
      std::printf("  -- read");
      say("bow", r.bow, 1e-3), say("stern", r.stern, 1e-3), say("sail", r.sail_showing, 1e-3);
      say("pull", r.pull, 1e-3), say("trim", r.trim, kDegree), say("heel", r.heel, kDegree);
      std::printf(" laid %.0f\n", r.laid_mass * 1e3);
    }
  }
  if (!t.done) t.dips = kMostDips;
  return t;
}

int percentile(std::vector<int> v, double p) {
  std::sort(v.begin(), v.end());
  return v[std::min(v.size() - 1, std::size_t(p * double(v.size())))];
}

void tell(const char* title, const std::vector<Trial>& all, double longest) {
  std::vector<int> dips;
  int done = 0, within = 0;
  for (const Trial& t : all) {
    if (t.length > longest) continue;
    dips.push_back(t.dips);
    done += t.done ? 1 : 0;
    within += t.within ? 1 : 0;
  }
  if (dips.empty()) return;
  const double n = double(dips.size());
  std::printf(
      "%-16s %5zu boats: median %d, 90 %% %d, 95 %% %d dips; not done in %d: %.1f %%; truly within when "
      "done: %.1f %%\n",
      title, dips.size(), percentile(dips, 0.5), percentile(dips, 0.9), percentile(dips, 0.95), kMostDips,
      100 * (n - done) / n, 100.0 * within / std::max(1, done));
}

/// Foam in 10 mL and lead in 5 g steps at least, in boats of a metre and more; rails as they are.
void coarsen(Boat& boat) {
  if (boat.length < kShort) return;
  for (Place& place : boat.places) {
    if (place.rail) continue;
    for (const Part& p : boat.parts) {
      if (p.name == place.part) place.step = std::max(place.step, p.role == Role::Foam ? 10e-6 : 0.005);
    }
  }
}

std::vector<Boat> readBoats(const char* folder) {
  std::vector<Boat> out;
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  for (const auto& path : paths) {
    std::ifstream in(path);
    std::ostringstream text;
    text << in.rdbuf();
    auto document = file::readBoatFile(text.str());
    if (!document) {
      std::fprintf(stderr, "%s: %s\n", path.c_str(), document.error().message.c_str());
      std::exit(2);
    }
    if (document->boat.places.empty()) continue;
    out.push_back(document->boat);
  }
  return out;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) return 2;
  const int boats = argc > 2 ? std::atoi(argv[2]) : 1000;
  const std::uint64_t seed = argc > 3 ? std::strtoull(argv[3], nullptr, 10) : 20260607;
  std::vector<Boat> files = readBoats(argv[1]);
  if (files.empty()) {
    std::fprintf(stderr, "no preset has places\n");
    return 2;
  }
  if (argc > 4 && std::string(argv[4]) == "coarse") {
    for (Boat& b : files) coarsen(b);
  }
  std::vector<Model> models;
  for (const Boat& b : files) {
    auto mm = buildModel(b);
    if (!mm) fatal(mm.error());
    models.push_back(*mm);
  };
  std::printf("pond trial, seed %llu, %zu kinds of boat\n", static_cast<unsigned long long>(seed),
              files.size());
  const auto start = std::chrono::steady_clock::now();
  std::vector<Trial> all;
  for (int i = 0; i < boats; ++i) {
    Dice dice(seed + std::uint64_t(i) * 7919);
    const std::size_t k = std::size_t(i) % files.size();
    if (std::getenv("ONLY") && std::atoi(std::getenv("ONLY")) != int(k)) continue;
    if (verbose()) std::printf("=== boat %d\n", i);
    all.push_back(play(files[k], models[k], dice));
  }
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  tell("all", all, 1e9);
  tell("under 1 m", all, kShort);
  for (const Boat& b : files) {
    std::vector<Trial> one;
    for (std::size_t i = 0; i < all.size(); ++i)
      if (std::abs(all[i].length - b.length) < 1e-9) one.push_back(all[i]);
    tell(b.name.c_str(), one, 1e9);
  }
  std::printf("%.1f s on one core\n", seconds);
}
