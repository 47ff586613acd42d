#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <pondtrim/file/mesh_file.hpp>
#include <pondtrim/file/mesh_words.hpp>

#include "mesh_text.hpp"
#include "support/mesh_files.hpp"
#include "support/meshes.hpp"
#include "support/presets.hpp"

using namespace pondtrim;
using namespace pondtrim::file;
using namespace pondtrim::test;

namespace {

/// In single precision, so that a binary STL keeps it.
Mesh body() {
  Mesh mesh = lumpySphereMesh({3, -2, 7}, 40, 0.2, 9, 11);
  for (Vec3& v : mesh.vertices) v = {float(v.x), float(v.y), float(v.z)};
  return mesh;
}
const Mesh kBody = body();

std::string faultOf(const std::string& bytes) {
  const auto read = readMeshFile(bytes);
  return read ? std::string("nothing wrong") : read.error().message;
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

void setWord(std::string& bytes, std::size_t at, std::uint32_t word) {
  for (std::size_t k = 0; k < 4; ++k) bytes[at + k] = char(word >> (8 * k) & 0xff);
}

/// The same corners, to single precision.
void checkSame(const Mesh& a, const Mesh& b) {
  REQUIRE(a.triangles.size() == b.triangles.size());
  for (std::size_t i = 0; i < a.triangles.size(); ++i)
    for (int k = 0; k < 3; ++k)
      CHECK(float(a.vertices[a.triangles[i]][k]) == float(b.vertices[b.triangles[i]][k]));
}

std::string wordsOf(const Mesh& mesh) {
  const auto read = readMeshFile(binaryStl(mesh));
  REQUIRE(read);
  const MendedMesh mended = mendMesh(read->mesh);
  std::string out;
  for (const std::string& s : meshSentences(mended.found, mended.done)) out += s + "\n";
  return out;
}

}  // namespace

TEST_CASE("one body as binary STL, as text and as OBJ is the same body") {
  const std::pair<MeshFormat, std::string> files[] = {{MeshFormat::BinaryStl, binaryStl(kBody)},
                                                      {MeshFormat::TextStl, textStl(kBody)},
                                                      {MeshFormat::Obj, objOf(kBody)}};
  for (const auto& [format, bytes] : files) {
    const auto read = readMeshFile(bytes);
    REQUIRE(read);
    CHECK(read->format == format);
    checkSame(read->mesh, kBody);
    const MendedMesh mended = mendMesh(read->mesh), own = mendMesh(kBody);
    CHECK(mended.found.closed);
    CHECK(mended.found.vertices == own.found.vertices);
    CHECK(mended.found.volume == doctest::Approx(own.found.volume).epsilon(1e-6));
  }
}

TEST_CASE("a binary STL is one whatever its head says; a few bytes after its end do no harm") {
  CHECK(readMeshFile(binaryStl(kBody, "solid as if it were text"))->format == MeshFormat::BinaryStl);
  CHECK(readMeshFile(binaryStl(kBody) + std::string(49, '\0')));
}

TEST_CASE("a text STL may have several solids, other case, CRLF and blanks anywhere") {
  std::string text = textStl(kBody) + with(textStl(kBody), "solid made", "SOLID Made");
  text =
      with(text, "facet normal 0 0 nan\n    outer loop\n", "FACET\tNormal 0\r\n 0 1 Outer\r\nLoop\r\n\r\n");
  text = with(text, "outer loop\n      vertex", "outer loop vertex ");
  const auto read = readMeshFile(text);
  REQUIRE_MESSAGE(read, faultOf(text));
  CHECK(read->mesh.triangles.size() == 2 * kBody.triangles.size());
}

TEST_CASE("a damaged binary STL is refused with what is wrong") {
  const std::string good = binaryStl(kBody);  // 288 triangles
  CHECK(faultOf(good.substr(0, good.size() - 1)) ==
        "number of triangles in the head is 288, but the file holds 287; allowed: as many as there are; the "
        "file "
        "is damaged or was cut off.");
  CHECK(faultOf(good + std::string(50, '\0')).find("is 288, but the file holds 289") != std::string::npos);
  std::string lie = good;
  setWord(lie, 80, 0xffffffffU);
  CHECK(faultOf(lie) ==
        "number of triangles in the head is 4294967295; allowed: 288, as many as the file holds; it is "
        "damaged, or "
        "no STL.");
  setWord(lie, 80, 0);
  CHECK(faultOf(lie).find("is 0, but the file holds 288") != std::string::npos);
  CHECK(faultOf(good.substr(0, 84)).find("file is 84 bytes long; allowed: an STL") == 0);
  CHECK(faultOf(good.substr(0, 20)).find("allowed: an STL") != std::string::npos);
  for (const auto& [value, shown] :
       {std::pair{std::numeric_limits<float>::quiet_NaN(), "not a number"},
        std::pair{std::numeric_limits<float>::infinity(), "infinity"}, std::pair{-2e9F, "-2000000000"}}) {
    std::string spoilt = good;
    setWord(spoilt, 84 + 4 * 50 + 12 + 12 + 8, bitsOf(value));
    CHECK(faultOf(spoilt) ==
          "triangle 5, corner 2, z is " + std::string(shown) + "; allowed: a number from -1e9 to 1e9.");
  }
}

TEST_CASE("too many triangles and too many bytes are refused before anything is made of them") {
  std::string many(84 + 50 * (kMostMeshTriangles + 1), '\0');
  setWord(many, 80, std::uint32_t(kMostMeshTriangles + 1));
  CHECK(faultOf(many).find("number of triangles is more than 2000000; allowed: at most 2000000") == 0);
  CHECK(faultOf(std::string(kMostMeshBytes + 1, ' ')).find("file is more than 256 MiB") == 0);
}

TEST_CASE("a damaged text STL is refused with its line and triangle") {
  const std::string good = textStl(boxMesh({0, 0, 0}, {1, 1, 1}));
  CHECK(faultOf(good) == "nothing wrong");
  CHECK(faultOf(with(good, "vertex", "vortex")) ==
        "line 4 (triangle 1) is \"vortex\"; allowed: a word of an STL: facet, outer loop, vertex, endloop, "
        "endfacet, endsolid.");
  CHECK(faultOf(with(good, "vertex", "vertex nan 0 0\n"))
            .find("line 4 (triangle 1) is \"nan\"; allowed: a number") == 0);
  CHECK(faultOf(with(good, "vertex", "vertex 1e10 0 0\n")).find("is \"1e10\"") != std::string::npos);
  CHECK(faultOf(with(good, "vertex", "vertex 1,5 0 0\n")).find("is \"1,5\"") != std::string::npos);
  CHECK(faultOf(with(good, "    endloop", "vertex 0 0 0\nendloop")).find("is a fourth vertex") !=
        std::string::npos);
  CHECK(faultOf(with(good, "    endloop\n", "facet")).find("is \"facet\"; allowed: endfacet first") !=
        std::string::npos);
  CHECK(faultOf(with(good, "    outer loop\n", "endloop")).find("is \"endloop\" after 0 vertices") !=
        std::string::npos);
  CHECK(faultOf(with(good, "  facet normal 0 0 nan\n    outer loop\n", ""))
            .find("is \"vertex\"; allowed: facet") != std::string::npos);
  const auto end = good.find("endsolid");
  CHECK(
      faultOf(good.substr(0, end)).find("is the end of the file; allowed: endsolid; the file was cut off") !=
      std::string::npos);
  CHECK(faultOf(good.substr(0, end - 12)).find("(triangle 12) is the end of the file") != std::string::npos);
  CHECK(faultOf(good.substr(0, good.find("vertex") + 8)).find("(triangle 1) is the end of the file") !=
        std::string::npos);
  CHECK(faultOf("solid nothing\nendsolid nothing\n").find("allowed: at least one facet") !=
        std::string::npos);
}

TEST_CASE("an OBJ: faces of any number of corners, counted from either end; the rest is passed over") {
  const auto read = readMeshFile(
      "mtllib x.mtl\r\nv 0 0 0 1\r\nv 4 0 0\r\nv 4 3 0\r\nv 0 3 0\r\nvn 0 0 1\r\ns off\r\n"
      "f -4/1/1 -3/2/1 \\\r\n -2//1 -1 # a square\r\n");
  REQUIRE(read);
  CHECK(read->mesh.triangles == std::vector<std::uint32_t>{0, 1, 2, 0, 2, 3});
  // A face that is not convex, a U: its area is right only if it is cut along its own inside.
  const auto u = readMeshFile(
      "v 0 0 0\nv 6 0 0\nv 6 5 0\nv 4 5 0\nv 4 2 0\nv 2 2 0\nv 2 5 0\nv 0 5 0\nf 5 6 7 8 1 2 3 4\n");
  REQUIRE(u);
  CHECK(u->mesh.triangles.size() == 18);
  CHECK(mendMesh(u->mesh).found.area == doctest::Approx(24));
}

TEST_CASE("a damaged OBJ is refused with its line") {
  const std::string corners = "v 0 0 0\nv 1 0 0\nv 0 1 0\n";
  CHECK(faultOf(corners + "f 1 2 4\n") ==
        "line 4 is a face on vertex \"4\"; allowed: 1 to 3, the vertices so far, or -1 and below counted "
        "back from "
        "the last.");
  for (const char* wrong :
       {"f 1 2 0", "f 1 2 -4", "f 1 2 1.5", "f 1 2 x", "f 1 2 /3", "f 1 2 99999999999999999999"})
    CHECK(faultOf(corners + wrong).find("line 4 is a face on vertex") == 0);
  CHECK(faultOf(corners + "f 1 2").find("line 4 is a face of 2 corners; allowed: three or more") == 0);
  CHECK(faultOf("v 1 2\n").find("line 1 is a vertex of 2 numbers") == 0);
  CHECK(faultOf("v 1 inf 3\n").find("line 1 is \"inf\"; allowed: a number") == 0);
  CHECK(faultOf(corners).find("file is without a face") == 0);
  CHECK(faultOf("f 1 2 3\n").find("allowed: vertices before it") != std::string::npos);
  CHECK(faultOf("<html>an error page</html>").find("file is a text without a vertex or a face") == 0);
  CHECK(faultOf("").find("allowed: an STL or OBJ with at least one triangle") != std::string::npos);
  std::string star, face = "f";
  for (int i = 0; i < 102; ++i) {
    const double r = i % 2 == 0 ? 2 : 1;
    star += "v " + std::to_string(r * std::cos(kPi * i / 51)) + " " +
            std::to_string(r * std::sin(kPi * i / 51)) + " 0\n";
    face += " " + std::to_string(i + 1);
  }
  CHECK(faultOf(star + face).find("line 103 is a face of 102 corners that is not convex") == 0);
  CHECK(faultOf(star + face.substr(0, face.find(" 101"))) == "nothing wrong");
}

TEST_CASE("read in steps, however small, a file is the same file, and a broken one broken in the same way") {
  const std::string good = textStl(boxMesh({0, 0, 0}, {1, 1, 1}));
  for (const std::string& bytes : {binaryStl(kBody), textStl(kBody), objOf(kBody),
                                   good.substr(0, good.size() / 2), with(good, "vertex", "vortex"),
                                   with(objOf(kBody), "f 1", "f 0"), std::string("v 1 2"), std::string()}) {
    const auto whole = readMeshFile(bytes);
    for (const std::size_t step : {1u, 50u, 1000u}) {
      MeshReader reader(bytes);
      double before = 0;
      while (reader.step(step)) {
        CHECK(reader.share() >= before);
        CHECK(reader.share() <= 1.0);
        before = reader.share();
      }
      const auto read = reader.take();
      REQUIRE(bool(read) == bool(whole));
      if (!whole) {
        CHECK(read.error().message == whole.error().message);
        continue;
      }
      CHECK(read->format == whole->format);
      CHECK(read->mesh.triangles == whole->mesh.triangles);
      CHECK(read->mesh.vertices == whole->mesh.vertices);
    }
  }
}

TEST_CASE("a file cut off anywhere, or with any byte changed, is a mesh still or refused in words") {
  const Mesh box = boxMesh({0, 0, 0}, {4, 3, 2});
  std::size_t refused = 0, read = 0;
  const auto look = [&](const std::string& bytes) {
    const auto answer = readMeshFile(bytes);
    if (answer) {
      ++read;
      const MendedMesh mended = mendMesh(answer->mesh);
      CHECK(std::isfinite(mended.found.volume));
      CHECK(mended.found.triangles <= 14);  // two faces of an OBJ run together are one of six corners
      return;
    }
    ++refused;
    CHECK_FALSE(answer.error().field.empty());
    CHECK_FALSE(answer.error().allowed.empty());
  };
  for (const std::string& good : {binaryStl(box), textStl(box), objOf(box)})
    for (std::size_t at = 0; at < good.size(); ++at) {
      look(good.substr(0, at));
      std::string changed = good;
      changed[at] = char(changed[at] ^ (1 << (at % 8)));
      look(changed);
    }
  CHECK(refused > 1000);
  CHECK(read > 1000);
}

TEST_CASE("the quick reader of numbers agrees with the slow one") {
  for (const char* text :
       {"0", "-0.0", "1", "-1.5", "+2.5e3", "123456789.123456789123456789", "1e-5", "0.000001234",
        "3.4028235e38", "1.17549435e-38", "5E+02", ".5", "7.", "1e308", "4.9e-324"}) {
    const auto read = quickNumber(text);
    REQUIRE(read);
    const double wanted = std::strtod(text, nullptr);
    CHECK(std::abs(*read - wanted) <= 1e-15 * std::abs(wanted) + 5e-324);
  }
  for (const char* text : {"", "-", ".", "e5", "1e", "1e+", "0x10", "nan", "inf", "1.2.3", "1 2", "--1"})
    CHECK_FALSE(quickNumber(text));
  CHECK(std::isinf(*quickNumber("1e999999999999")));
  CHECK(*quickNumber("1e-999999999999") == 0);
}

TEST_CASE("what was found is said in words") {
  const Mesh box = boxMesh({0, 0, 0}, {4, 3, 2});
  CHECK(wordsOf(box) ==
        "Closed all round: it can be a skin or a solid.\nNothing needed repair.\n12 triangles, 8 vertices, "
        "in 1 "
        "piece.\n");
  const std::string turned = wordsOf(withTurned(box, 4));
  CHECK(turned.find("Repaired: 3 triangles turned to face the way of the neighbours.") != std::string::npos);
  CHECK(wordsOf(withTurned(box, 1)).find("1 piece turned that was inside out.") != std::string::npos);
  Mesh open = box;
  open.triangles.resize(30);
  const std::string rim = wordsOf(open);
  CHECK(rim.find("Not closed all round: it can be a skin, not a solid.") == 0);
  CHECK(rim.find(
            "Open: 4 edges have a triangle on one side only, in 1 ring, 12 long, about x 0, y -1.5, z 0.") !=
        std::string::npos);
  Mesh twice = box;
  twice.triangles.insert(twice.triangles.end(), {box.triangles[0], box.triangles[1], box.triangles[2]});
  CHECK(wordsOf(twice).find("1 triangle that was there twice left out") != std::string::npos);
  const std::string hollow = wordsOf(joined(box, withTurned(boxMesh({0, 0, 0}, {1, 1, 1}), 1)));
  CHECK(hollow.find("1 piece lies inside another") != std::string::npos);
  CHECK(wordsOf({{Vec3(0), Vec3(1, 0, 0)}, {0, 1, 1}}).find("No triangle has any area") == 0);
}

TEST_CASE("the answer as JSON has what was found, what was repaired and the words") {
  const auto read = readMeshFile(textStl(withTurned(boxMesh({0, 0, 0}, {4, 3, 2}), 4)));
  REQUIRE(read);
  const std::string json = meshJson(read->format, mendMesh(read->mesh));
  for (const char* part : {"\"format\": \"STL, text\"", "\"closed\": true", "\"area\": 52", "\"volume\": 24",
                           "\"extent\": [4, 3, 2]", "\"triangles\": 12", "\"open_edges\": 0",
                           "\"triangles_turned\": 3", "\"Closed all round"})
    CHECK_MESSAGE(json.find(part) != std::string::npos, part, " in ", json);
}

TEST_CASE("what the fuzzer found: mended once, such a mesh is not changed by mending it again") {
  // An open strip, pieces that touch, flat pieces whose volume is what rounding makes of nothing.
  for (const char* name : {"open-strip.stl", "touching-pieces", "flat-pieces"}) {
    CAPTURE(name);
    const auto read = readMeshFile(textOf(std::string("tests/fuzz/corpus/mesh/") + name));
    REQUIRE(read);
    const MendedMesh once = mendMesh(read->mesh);
    const MeshRepair again = mendMesh(once.mesh).done;
    CHECK(again.turned + again.inside_out == 0);
    CHECK(again.joined + again.degenerate + again.duplicate == 0);
  }
}
