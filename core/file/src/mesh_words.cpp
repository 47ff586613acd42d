#include <pondtrim/file/mesh_words.hpp>

#include "report_object.hpp"

namespace pondtrim::file {
namespace {

/// "1 edge", "12 edges"; `many` when it is not one with an s.
std::string counted(std::size_t count, const std::string& one, const std::string& many = "") {
  return std::to_string(count) + " " + (count == 1 ? one : many.empty() ? one + "s" : many);
}

std::string number(double value) { return roundedDecimal(value, 4); }

std::string openWords(const MeshFindings& f) {
  return "Open: " + counted(f.open_edges, "edge has", "edges have") + " a triangle on one side only, in " +
         counted(f.open_loops, "ring") + (f.open_loops == 1 ? ", " : "; the longest is ") +
         number(f.longest_loop) + " long, about x " + number(f.longest_loop_middle.x) + ", y " +
         number(f.longest_loop_middle.y) + ", z " + number(f.longest_loop_middle.z) + ".";
}

std::string repairWords(const MeshRepair& done) {
  std::string out;
  const auto say = [&](std::size_t count, const std::string& words) {
    if (count > 0) out += (out.empty() ? "Repaired: " : "; ") + words;
  };
  say(done.joined, counted(done.joined, "vertex", "vertices") + " joined to another close by");
  say(done.degenerate, counted(done.degenerate, "triangle") + " with two corners at one place left out");
  say(done.duplicate,
      counted(done.duplicate, "triangle that was", "triangles that were") + " there twice left out");
  say(done.turned, counted(done.turned, "triangle") + " turned to face the way of the neighbours");
  say(done.inside_out, counted(done.inside_out, "piece") + " turned that was inside out");
  return out.empty() ? "Nothing needed repair." : out + ".";
}

json::Value listOfPoint(const Vec3& p) {
  json::Value out = json::empty(json::Kind::List);
  for (int k = 0; k < 3; ++k) out.items.push_back(json::number(roundedDecimal(p[k], kReportDigits)));
  return out;
}

}  // namespace

const char* meshFormatWords(MeshFormat format) {
  switch (format) {
    case MeshFormat::BinaryStl:
      return "STL, binary";
    case MeshFormat::TextStl:
      return "STL, text";
    case MeshFormat::Obj:
      return "OBJ";
  }
  return "";
}

std::vector<std::string> meshSentences(const MeshFindings& f, const MeshRepair& done) {
  if (f.triangles == 0) return {"No triangle has any area: there is nothing to use.", repairWords(done)};
  std::vector<std::string> out;
  const auto say = [&](std::size_t count, const std::string& words) {
    if (count > 0) out.push_back(words);
  };
  out.push_back(f.closed ? "Closed all round: it can be a skin or a solid."
                         : "Not closed all round: it can be a skin, not a solid.");
  say(f.open_edges, openWords(f));
  say(f.crowded_edges, counted(f.crowded_edges, "edge has", "edges have") +
                           " more than two triangles: walls that meet, or faces drawn twice.");
  say(f.one_sided, counted(f.one_sided, "piece has", "pieces have") + " no outside, as a twisted band.");
  say(f.inner_pieces, counted(f.inner_pieces, "piece lies", "pieces lie") +
                          " inside another: in a solid a hollow if it faces inward; in a skin another wall.");
  say(f.back_to_back, counted(f.back_to_back, "triangle lies", "triangles lie") +
                          " on another one, back to back: a skin counts both.");
  say(f.needles, counted(f.needles, "triangle") + " without area: no harm.");
  out.push_back(repairWords(done));
  out.push_back(counted(f.triangles, "triangle") + ", " + counted(f.vertices, "vertex", "vertices") +
                ", in " + counted(f.pieces, "piece") + ".");
  return out;
}

std::string meshJson(MeshFormat format, const MendedMesh& mesh) {
  const MeshFindings& f = mesh.found;
  ReportObject out, repaired;
  const auto count = [](ReportObject& to, const char* name, std::size_t n) {
    to.put(name, json::number(std::to_string(n)));
  };
  out.put("format", json::string(meshFormatWords(format)));
  out.put("closed", json::boolean(f.closed));
  out.put("area", f.area, kNumber);
  out.put("volume", f.volume, kNumber);
  out.put("low", listOfPoint(f.low));
  out.put("high", listOfPoint(f.high));
  out.put("extent", listOfPoint(f.high - f.low));
  count(out, "triangles", f.triangles);
  count(out, "vertices", f.vertices);
  count(out, "pieces", f.pieces);
  count(out, "open_pieces", f.open_pieces);
  count(out, "inner_pieces", f.inner_pieces);
  count(out, "one_sided_pieces", f.one_sided);
  count(out, "open_edges", f.open_edges);
  count(out, "open_rings", f.open_loops);
  if (f.open_loops > 0) {
    out.put("longest_ring", f.longest_loop, kNumber);
    out.put("longest_ring_middle", listOfPoint(f.longest_loop_middle));
  }
  count(out, "crowded_edges", f.crowded_edges);
  count(out, "triangles_without_area", f.needles);
  count(out, "triangles_back_to_back", f.back_to_back);
  count(repaired, "vertices_joined", mesh.done.joined);
  count(repaired, "degenerate_left_out", mesh.done.degenerate);
  count(repaired, "duplicates_left_out", mesh.done.duplicate);
  count(repaired, "triangles_turned", mesh.done.turned);
  count(repaired, "pieces_turned", mesh.done.inside_out);
  out.put("repaired", std::move(repaired));
  out.put("in_words",
          listOf(meshSentences(f, mesh.done), [](const std::string& s) { return json::string(s); }));
  return json::print(out.take());
}

}  // namespace pondtrim::file
