// Time = integral of dV / Q(V). The back pressure only rises along the way, so the pump stalls once at most.
#include "pump_run.hpp"

#include <algorithm>
#include <cmath>

#include "quadrature.hpp"

namespace pondtrim {

namespace {

constexpr int kCurvePoints = 41;
/// The last of the way to a stall takes for ever (the flow fades in proportion); the curve ends here.
constexpr double kNearlyStalled = 0.99;

double hoseCoefficient(const Pump& pump) {
  return pump.hose_loss.value_or(0.0) / (pump.free_flow * pump.free_flow);
}

class Run {
 public:
  explicit Run(const PumpTask& task) : task_(task), span_(std::abs(task.to - task.from)) {}

  [[nodiscard]] double fillAt(double share) const { return task_.from + (task_.to - task_.from) * share; }
  [[nodiscard]] double pressureAt(double share) const { return task_.resists(fillAt(share)); }
  [[nodiscard]] double flowAt(double share) const {
    return pumpFlow(task_.pump, task_.voltage, pressureAt(share));
  }
  [[nodiscard]] double currentAt(double share) const {
    const double q = flowAt(share);
    return pumpCurrent(task_.pump, task_.voltage,
                       std::max(0.0, pressureAt(share)) + hoseCoefficient(task_.pump) * q * q)
        .value_or(0.0);
  }
  /// Share of the way at which the flow ends; empty when it never does.
  [[nodiscard]] std::optional<double> stall() const {
    if (flowAt(1.0) > 0) return std::nullopt;
    double lo = 0, hi = 1;
    for (int i = 0; i < 60; ++i) {
      const double mid = (lo + hi) / 2;
      (flowAt(mid) > 0 ? lo : hi) = mid;
    }
    return lo;
  }
  void integrateTo(double end, BallastRun& out) const {
    double time = 0, charge = 0;
    const auto slowness = [&](double s) { return span_ / flowAt(s); };
    const auto chargeRate = [&](double s) { return currentAt(s) * slowness(s); };
    const double scale = span_ / (task_.pump.free_flow * task_.voltage / task_.pump.rated_voltage);
    for (int i = 0; i < kCurvePoints; ++i) {
      const double share = end * i / (kCurvePoints - 1);
      if (i > 0 && end > 0) {
        const double before = end * (i - 1) / (kCurvePoints - 1);
        time += integrate(slowness, before, share, 1e-9 * scale);
        charge += integrate(chargeRate, before, share, 1e-9 * scale);
      }
      out.curve.push_back({time, fillAt(share), pressureAt(share), currentAt(share)});
    }
    out.time = time;
    if (task_.pump.free_current && task_.pump.stall_current) out.charge = charge;
  }

 private:
  const PumpTask& task_;
  double span_;
};

}  // namespace

double pumpFlow(const Pump& pump, double voltage, double back_pressure) {
  const double resist = std::max(0.0, back_pressure);
  const double clear =
      pump.free_flow * voltage / pump.rated_voltage - pump.free_flow * resist / pump.stall_pressure;
  if (!(clear > 0)) return 0.0;
  // Q = clear - a Q^2 with a = free_flow k / p_stall: the positive root, in a form without cancellation.
  const double a = pump.free_flow * hoseCoefficient(pump) / pump.stall_pressure;
  return 2 * clear / (1 + std::sqrt(1 + 4 * a * clear));
}

std::optional<double> pumpCurrent(const Pump& pump, double voltage, double back_pressure) {
  if (!pump.free_current || !pump.stall_current) return std::nullopt;
  const double share = std::clamp(back_pressure / pump.stall_pressure, 0.0, voltage / pump.rated_voltage);
  return *pump.free_current + (*pump.stall_current - *pump.free_current) * share;
}

Pump pumpLikePiston(const PistonTank& piston) {
  const double area = kPi * piston.diameter * piston.diameter / 4;
  Pump out;
  out.free_flow = piston.free_speed * area;
  out.stall_pressure = piston.stall_force / area;
  out.rated_voltage = piston.rated_voltage;
  out.free_current = piston.free_current;
  out.stall_current = piston.stall_current;
  return out;
}

BallastRun runPump(const PumpTask& task) {
  const Run run(task);
  BallastRun out;
  out.voltage = task.voltage;
  const auto stall = run.stall();
  out.completes = !stall;
  if (stall) out.stall_fill = run.fillAt(*stall);
  const double end = stall ? *stall * kNearlyStalled : 1.0;
  run.integrateTo(end, out);
  // Left running, it comes to the stall itself, which the curve never quite reaches.
  const double last = stall.value_or(1.0);
  out.greatest_pressure = std::max(0.0, run.pressureAt(last));
  for (const BallastPoint& point : out.curve)
    out.greatest_pressure = std::max(out.greatest_pressure, point.pressure);
  const double whole = run.pressureAt(1.0);
  if (whole > 0) out.margin = task.pump.stall_pressure * task.voltage / task.pump.rated_voltage / whole;
  if (task.pump.free_current && task.pump.stall_current) {
    out.greatest_current = run.currentAt(last);
    for (const BallastPoint& point : out.curve)
      out.greatest_current = std::max(*out.greatest_current, point.current);
  }
  return out;
}

}  // namespace pondtrim
