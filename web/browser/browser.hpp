#pragma once
// The whole contract with the page: text in, text out. browser_page.cpp speaks to the page,
// browser_native.cpp stands in for it in native tests.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::browser {

/// Page -> app. A message is words separated by spaces, the first one a verb; what follows a line break is
/// free text. The answer is text too. Verbs: see App::handle.
using Handler = std::function<std::string(std::string_view message)>;
void listen(Handler handler);

/// Text kept by the page under a key across visits. `keep` is false when the page could not keep it (storage
/// full or forbidden).
[[nodiscard]] std::optional<std::string> recall(std::string_view key);
[[nodiscard]] bool keep(std::string_view key, std::string_view text);

/// The keys under which text is kept that begin with `prefix`, sorted.
[[nodiscard]] std::vector<std::string> keptKeys(std::string_view prefix);
void forget(std::string_view key);

/// Hands the person a file.
void download(std::string_view file_name, std::string_view text);

/// Hands the person the whole app as one HTML file; the message "no-one-file" comes when that cannot be had.
void saveApp();

/// Leaves the app for another page of the site; its way back leads to the same boat.
void go(std::string_view page);

/// Hands a file to the phone's own way of sharing, or as `download` where there is none.
void shareFile(std::string_view file_name, std::string_view text);
/// Hands a link to the phone's own way of sharing, or copies it. The message "copied 1" or "copied 0" may
/// follow.
void shareLink(std::string_view title, std::string_view link);
/// "copied 1" or "copied 0" follows.
void copyText(std::string_view text);

/// The page's own address, without what follows ? and #. A link is this, # and a fragment; one that the page
/// was opened with arrives as the message "link YYYY-MM-DD\nFRAGMENT".
[[nodiscard]] std::string pageAddress();

/// Opens the page's file chooser; a chosen file arrives as the message "file NAME\nTEXT", like one that
/// is dropped on the page. A mesh (chosen as one, or named .stl or .obj) arrives as "mesh NAME BYTES", to
/// which "stop" may be answered, and then in pieces as "mesh-bytes\n...".
enum class FileKind { Boat, Mesh };
void chooseFile(FileKind kind);

/// Opens a dialog in which a table is typed or pasted as text; "table\nTEXT" comes when the person is done,
/// and its answer is what is wrong with it, shown there, or empty.
void askTable(std::string_view title, std::string_view text);

/// Opens the trim sheet: HTML whose every text is escaped already, and the same as plain text to copy.
void showSheet(std::string_view html, std::string_view text);

/// All controls as JSON, for the page to mirror as elements of its own (see state.cpp).
void mirror(std::string_view controls);

/// Words for those who cannot see the canvas (a live region of the page).
void announce(std::string_view text);

}  // namespace pondtrim::browser
