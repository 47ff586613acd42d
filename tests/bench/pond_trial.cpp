// Pond trial: a seeded Monte-Carlo trial of the pond log. True boats differ from the file in ways that are
// not the log's own priors; simulated people read rulers, clinometers and scales, cut what the log says, and
// dip again.
//
// usage: pond_trial PRESET_FOLDER [BOATS] [SEED]
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/pond_log.hpp>
#include <random>
#include <sstream>

#include "amounts.hpp"

namespace {

using namespace pondtrim;

constexpr double kDegree = kPi / 180;
constexpr int kMostDips = 15;

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

Reading dip(const Model& truth, const Boat& boat, bool full, Dice& dice) {
  Reading r;
  r.tank = full ? TankState::Full : TankState::Empty;
  r.water = boat.water;
  for (const Part& p : boat.parts) {
    if (isFoamOrLead(p)) r.installed.push_back({p.name, amountOf(p)});
  }
  const auto report = evaluate(truth, {boat.water, full ? truth.tank_capacity : 0.0});
  if (!report) std::abort();
  const auto read = [&](double v, double spread, double step) {
    return Measured{rounded(v + dice.normal(spread), step), spread};
  };
  if (report->rest.outcome == Outcome::Sinks) {  // hung level on two spring scales at the marks
    const Marks& m = truth.marks;
    const double net = -report->net_buoyancy_submerged;
    const Vec3 moment = report->centre_of_gravity * report->total_mass -
                        truth.whole_centroid * (truth.whole_volume * report->rest.density);
    const double bow = (moment.x - m.stern_x * net) / (m.bow_x - m.stern_x);
    r.bow_hook_x = m.bow_x;
    r.stern_hook_x = m.stern_x;
    r.bow_pull = read(bow, 0.003, 0.001);
    r.stern_pull = read(net - bow, 0.003, 0.001);
    return r;
  }
  const Attitude a = report->rest.attitude;
  r.heel = read(a.heel, 0.5 * kDegree, 0.1 * kDegree);
  if (full) {
    r.sail_showing = read(report->sail_showing, 0.0015, 0.001);
    r.trim = read(a.trim, 0.5 * kDegree, 0.1 * kDegree);
  } else if (report->bow) {
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

Trial play(const Boat& file, const Model& file_model, Dice& dice) {
  Truth truth = makeTruth(file, dice);
  trapAir(truth, file_model.whole_volume, dice);
  Boat known = file;
  known.log.clear();
  Trial t;
  t.length = file.length;
  while (t.dips < kMostDips - 1 && !t.done) {
    const auto model = modelOf(truth, &file_model);
    if (!model) std::abort();
    for (const bool full : {false, true}) {
      known.log.push_back(dip(*model, known, full, dice));
      ++t.dips;
    }
    const auto estimate = estimateCorrection(known, {}, &file_model);
    if (!estimate) {
      std::fprintf(stderr, "%s\n", estimate.error().message.c_str());
      std::abort();
    }
    const auto outlook = predict(known, *estimate, {}, &file_model);
    if (!outlook) std::abort();
    if (outlook->done) {
      t.done = true;
      t.within = trulyWithin(*model, known);
      break;
    }
    const auto next = nextChange(known, *estimate, {}, &file_model);
    if (!next) {
      std::fprintf(stderr, "%s\n", next.error().message.c_str());
      std::abort();
    }
    if (std::getenv("VERBOSE") != nullptr) {
      std::printf(
          "%s dips %d p %.3f bow %.1f stern %.1f heel %.2f net %.1f trim %.2f heel %.2f -> p %.3f, %zu "
          "changes\n",
          known.name.c_str(), t.dips, outlook->probability, outlook->bow.value * 1e3,
          outlook->stern.value * 1e3, outlook->heel.value / kDegree, outlook->dived_net.value * 1e3,
          outlook->dived_trim.value / kDegree, outlook->dived_heel.value / kDegree, next->after.probability,
          next->changes.size());
      std::printf(
          "     spreads after: bow %.2f stern %.2f heel %.2f net %.1f trim %.2f heel %.2f; values %.2f %.2f "
          "%.2f %.1f %.2f %.2f\n",
          next->after.bow.spread * 1e3, next->after.stern.spread * 1e3, next->after.heel.spread / kDegree,
          next->after.dived_net.spread * 1e3, next->after.dived_trim.spread / kDegree,
          next->after.dived_heel.spread / kDegree, next->after.bow.value * 1e3, next->after.stern.value * 1e3,
          next->after.heel.value / kDegree, next->after.dived_net.value * 1e3,
          next->after.dived_trim.value / kDegree, next->after.dived_heel.value / kDegree);
    }
    // A change that promises nothing is not worth a cut: read again instead.
    if (next->after.misfit > 0.8 * outlook->misfit && next->after.probability <= outlook->probability)
      continue;
    cut(truth, next->changes, dice);
    Boat changed = next->boat;
    changed.log = known.log;
    known = std::move(changed);
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
  const std::vector<Boat> files = readBoats(argv[1]);
  if (files.empty()) {
    std::fprintf(stderr, "no preset has places\n");
    return 2;
  }
  std::vector<Model> models;
  for (const Boat& b : files) models.push_back(*buildModel(b));
  std::printf("pond trial, seed %llu, %zu kinds of boat\n", static_cast<unsigned long long>(seed),
              files.size());
  const auto start = std::chrono::steady_clock::now();
  std::vector<Trial> all;
  for (int i = 0; i < boats; ++i) {
    Dice dice(seed + std::uint64_t(i) * 7919);
    const std::size_t k = std::size_t(i) % files.size();
    all.push_back(play(files[k], models[k], dice));
  }
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  tell("all", all, 1e9);
  tell("under 1 m", all, 0.999);
  std::printf("%.1f s on one core\n", seconds);
}
