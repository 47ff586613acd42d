#pragma once
// A table of offsets faired to a hull: cubic curves through the points of each station, and through
// corresponding points of all stations, from keel to deck. In the table's own frame [m].
#include <optional>
#include <pondtrim/boat.hpp>
#include <vector>

namespace pondtrim {

/// How a curve begins or ends: square to `axis`, as a round nose does, where it meets that axis (unit vector
/// into the curve) steeply; else as its points go.
struct CurveEnd {
  bool on_axis = false;
  Vec3 axis{0.0};
};

/// A curve through points, by cubic pieces whose tangents are those of parabolas through three points. A
/// coordinate that rises from point to point rises along the curve: straight stays straight, and nothing
/// overshoots (Fritsch and Carlson 1980, SIAM J. Numer. Anal. 17, 238-246).
class FairCurve {
 public:
  /// Two points or more, no two in a row equal.
  FairCurve(std::vector<Vec3> points, const CurveEnd& start, const CurveEnd& end);

  /// At a share of the sum of its chords, 0 to 1.
  [[nodiscard]] Vec3 at(double share) const;
  /// In the piece that begins at point `i`, q from 0 to 1.
  [[nodiscard]] Vec3 inPiece(std::size_t i, double q) const;

 private:
  struct Piece {
    Vec3 leaving, arriving;  ///< tangents per unit of q
  };
  std::vector<Vec3> points_;
  std::vector<double> along_;  ///< sum of chords up to each point
  std::vector<Piece> pieces_;
};

class FairHull {
 public:
  explicit FairHull(const OffsetsForm& form);

  /// Port side from keel to deck, `count` points, in the piece between stations i and i + 1 at q.
  [[nodiscard]] std::vector<Vec3> ring(std::size_t i, double q, std::size_t count) const;
  /// The same where x is; outside: empty.
  [[nodiscard]] std::vector<Vec3> section(double x) const;

 private:
  static constexpr std::size_t kLines = 33;  ///< lengthways curves kept, from keel to deck

  [[nodiscard]] FairCurve lengthways(double share) const;

  std::vector<double> x_;                         ///< of the stations
  std::vector<std::optional<FairCurve>> across_;  ///< none at a point
  std::vector<Vec3> tips_;                        ///< the point of those
  std::vector<FairCurve> lines_;
};

/// Half breadth of a section given from keel to deck at a height; 0 above and below.
double breadthAt(const std::vector<Vec3>& section, double z);

}  // namespace pondtrim
