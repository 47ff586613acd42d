#include "session/guests.hpp"

#include <algorithm>
#include <utility>

#include "browser/browser.hpp"
#include "session/shelf.hpp"

namespace pondtrim {
namespace {

constexpr const char* kPartsKey = "link-parts";

file::PartCollection keptParts() {
  file::PartCollection collection;
  const std::string lines = browser::recall(kPartsKey).value_or("");
  for (std::size_t at = 0; at < lines.size();) {
    const std::size_t end = std::min(lines.find('\n', at), lines.size());
    if (const auto part = file::readPartFragment(std::string_view(lines).substr(at, end - at)))
      collection.add(*part);
    at = end + 1;
  }
  return collection;
}

std::string numbersText(const std::vector<int>& numbers) {
  std::string text;
  for (std::size_t i = 0; i < numbers.size(); ++i)
    text += (i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ") + std::to_string(numbers[i]);
  return text;
}

/// The whole link when this part was the last one missing.
Result<std::optional<std::string>> receivePart(Session& session, std::string_view fragment) {
  const auto part = file::readPartFragment(fragment);
  if (!part) return fail(part.error());
  file::PartCollection collection = keptParts();
  collection.add(*part);
  const auto whole = collection.whole();
  const bool kept = browser::keep(kPartsKey, whole ? "" : collection.lines());
  if (whole) return whole;
  const auto missing = collection.missing();
  const std::string seen =
      "Code " + std::to_string(part->number) + " of " + std::to_string(part->count) + " is here.";
  session.say(
      seen +
      (kept ? " Scan the others too: " + numbersText(missing) + "."
            : " This browser keeps nothing between visits, so the codes cannot be put together; ask for "
              "the file."));
  return std::optional<std::string>();
}

Result<void> refuse(Session& session, const Error& error) {
  session.refuseFile("The link", error);
  return fail(error);
}

}  // namespace

Result<void> welcome(Session& session, file::BoatDocument document, std::string origin) {
  document.boat.origin = std::move(origin);
  if (auto model = buildModel(document.boat); !model) return refuse(session, model.error());
  const std::string own = session.boat().name, name = document.boat.name;
  if (auto opened = openAnother(session, std::move(document)); !opened) return opened;
  if (!session.notice())
    session.say(name + " came aboard as a new boat. " + (own == name ? "Your own" : own) +
                " is unchanged: see the page Boat.");
  return {};
}

Result<void> receiveFragment(Session& session, std::string_view fragment, std::string_view today) {
  std::string whole(fragment);
  if (file::isPartFragment(fragment)) {
    const auto put_together = receivePart(session, fragment);
    if (!put_together) return refuse(session, put_together.error());
    if (!*put_together) return {};
    whole = **put_together;
  }
  auto document = file::readBoatFragment(whole);
  if (!document) return refuse(session, document.error());
  return welcome(session, std::move(*document), "a link, " + std::string(today));
}

}  // namespace pondtrim
