// Passing a boat on, without the page: codes, and boats that come aboard.
#include <doctest/doctest.h>

#include <pondtrim/file/link.hpp>

#include "browser/browser.hpp"
#include "session/file_name.hpp"
#include "session/guests.hpp"
#include "session/history_store.hpp"
#include "session/qr_codes.hpp"
#include "session/shelf.hpp"
#include "session/store.hpp"
#include "support/presets.hpp"

using namespace pondtrim;

namespace {

constexpr const char* kToday = "2026-05-02";

file::BoatDocument boat(std::size_t i) { return test::presetBoat(test::presetPaths()[i]); }

/// On a browser that keeps nothing yet.
Session freshSession() {
  for (const std::string& name : boatsOnShelf()) removeFromShelf(name);
  REQUIRE(browser::keep("link-parts", ""));
  auto session = Session::start(boat(0));
  REQUIRE(session);
  return std::move(*session);
}

std::string noticeOf(const Session& session) { return session.notice() ? session.notice()->text : ""; }

}  // namespace

TEST_CASE("every preset fits one code of at most version 25, at an address of a common length") {
  const std::string address = "https://a-club-of-model-submarines.example/pondtrim/";
  for (const std::string& path : test::presetPaths()) {
    const auto links = linksForCodes(address, file::boatFragment(test::presetBoat(path)));
    REQUIRE(links.size() == 1);
    const QrPicture code = qrPicture(links[0]);
    CHECK(code.version <= 25);
    MESSAGE(path, ": ", links[0].size(), " bytes, version ", code.version, "-", code.level);
  }
}

TEST_CASE("short texts get more error correction; sizes follow ISO/IEC 18004") {
  const auto levelOf = [](std::size_t bytes) { return qrPicture(std::string(bytes, 'a')).level; };
  CHECK(levelOf(20) == 'H');
  CHECK(levelOf(220) == 'H');
  CHECK(levelOf(292) == 'Q');
  CHECK(levelOf(666) == 'M');
  CHECK(levelOf(1273) == 'L');
  for (std::size_t bytes = 1; bytes <= kQrCapacity; bytes += 53) {
    const QrPicture code = qrPicture(std::string(bytes, 'x'));
    CHECK(code.version <= kLargestQrVersion);
    CHECK(code.size == 17 + 4 * code.version);
    CHECK(code.dark.size() == static_cast<std::size_t>(code.size * code.size));
    // The three finder patterns: dark corners, and a white ring one module inside.
    for (const auto& [x, y] : {std::pair{0, 0}, std::pair{code.size - 1, 0}, std::pair{0, code.size - 1}})
      CHECK(code.at(x, y));
    CHECK_FALSE(code.at(1, 1));
    CHECK(code.at(3, 3));
  }
}

TEST_CASE("a boat with a long log takes several codes, each within its size, and comes aboard from them") {
  Session session = freshSession();
  file::BoatDocument wordy = boat(1);
  for (int i = 0; i < 120; ++i) {
    Reading dip;
    dip.note = "dip " + std::to_string(i * 7919) + " of a long afternoon";
    dip.water = wordy.boat.water;
    dip.bow = Measured{0.0013 * i / 7, kRulerSpread};
    wordy.boat.log.push_back(dip);
  }
  const auto links = linksForCodes(browser::pageAddress(), file::boatFragment(wordy));
  REQUIRE(links.size() > 1);
  REQUIRE(links.size() < 10);
  for (std::size_t i = links.size(); i-- > 0;) {
    CHECK(qrPicture(links[i]).version <= kLargestQrVersion);
    REQUIRE(receiveFragment(session, links[i].substr(links[i].find('#') + 1), kToday));
    if (i > 0) CHECK(noticeOf(session).find("Code " + std::to_string(i + 1) + " of") == 0);
    CHECK((session.boat().name == wordy.boat.name) == (i == 0));
  }
  wordy.boat.origin = "a link, 2026-05-02";
  CHECK(session.boat() == wordy.boat);
}

TEST_CASE("a guest never takes the place of one's own boat, even of the same name: she stands on the shelf") {
  Session session = freshSession();
  Boat mine = session.boat();
  mine.parts[0].mass = *mine.parts[0].mass + 0.001;
  REQUIRE(session.edit(mine));
  for (const std::size_t guest : {std::size_t{0}, std::size_t{1}}) {  // the first has the own boat's name
    REQUIRE(receiveFragment(session, file::boatFragment(boat(guest)), kToday));
    CHECK(session.boat().origin == "a link, 2026-05-02");
    CHECK(noticeOf(session).find("came aboard") != std::string::npos);
    REQUIRE(boatsOnShelf().size() == 1 + guest);
    CHECK(boatsOnShelf()[0] == mine.name);
  }
  const auto text = textOnShelf(mine.name);
  REQUIRE(text);
  CHECK(file::readBoatFile(*text)->boat == mine);
  REQUIRE(openFromShelf(session, mine.name));
  CHECK(session.boat() == mine);
}

TEST_CASE(
    "a step back across an opened boat also brings back where she stands on the shelf, and keeps it across "
    "visits") {
  for (const bool visited_again : {false, true}) {
    CAPTURE(visited_again);
    Session session = freshSession();
    Boat mine = session.boat();
    mine.parts[0].mass = *mine.parts[0].mass + 0.001;
    REQUIRE(session.edit(mine));
    const std::string name = mine.name, second = name + " (2)";
    file::BoatDocument guest = boat(1);
    guest.boat.name = name;
    REQUIRE(openAnother(session, guest));  // one's own goes to the shelf under her name...
    REQUIRE(openAnother(session, boat(2)));
    REQUIRE(boatsOnShelf() == std::vector<std::string>{name, second});  // ...and the guest beside her
    REQUIRE(openFromShelf(session, second));
    for (int i = 0; i < 3; ++i) session.undo();  // back to one's own
    REQUIRE(session.boat() == mine);
    if (visited_again) {
      HistoryStore store;
      REQUIRE(keepBoat(session));
      REQUIRE(store.keep(session));
      auto later = resumeSession();
      REQUIRE(later);
      HistoryStore().restore(*later);
      session = std::move(*later);
      for (int i = 0; i < 3; ++i) session.redo();
      CHECK(session.shelfPlace() == second);
      for (int i = 0; i < 3; ++i) session.undo();
    }
    CHECK(session.shelfPlace() == name);
    mine.parts[0].mass = *mine.parts[0].mass + 0.002;
    REQUIRE(session.edit(mine));
    REQUIRE(openAnother(session, boat(2)));
    CHECK(boatsOnShelf() == std::vector<std::string>{name, second});
    CHECK(file::readBoatFile(*textOnShelf(name))->boat == mine);
    CHECK(file::readBoatFile(*textOnShelf(second))->boat == guest.boat);
  }
}

TEST_CASE("damaged and foreign links are refused with a reason; boat and shelf stay") {
  Session session = freshSession();
  const Boat mine = session.boat();
  const std::string good = file::boatFragment(boat(1));
  for (const std::string& bad :
       {good.substr(0, good.size() / 2), std::string("boat="), std::string("part=1.2.x.y"),
        std::string("boat=Ag"), std::string("part=1.1.00000000.Zm9v")}) {
    CAPTURE(bad);
    CHECK_FALSE(receiveFragment(session, bad, kToday));
    CHECK(noticeOf(session).find("The link was not opened: ") == 0);
    CHECK(session.boat() == mine);
    CHECK(boatsOnShelf().empty());
  }
}

TEST_CASE("file names that every system takes") {
  CHECK(fileName("Crooked Sixpence", ".boat.json") == "Crooked-Sixpence.boat.json");
  CHECK(fileName("../../etc/passwd", ".csv") == "etc-passwd.csv");
  CHECK(fileName("\u7af9", ".csv") == "boat.csv");
}
