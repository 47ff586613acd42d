#pragma once
// What the commands share: reading the boat, reading the words of the command line, complaining.
#include <optional>
#include <pondtrim/file/boat_file.hpp>
#include <string>

#include "commands.hpp"

namespace pondtrim::cli {

/// Prints the error on stderr, each member on its own line. Returns kBadInput.
int complain(const Error& error);
/// The same for the command line: "pondtrim float: <sentence>".
int complainUsage(const char* command, const std::string& sentence);

/// What is in the file ("-": standard input); at most one byte more than `most`, so that the reader of the
/// bytes can say that they are too many.
[[nodiscard]] Result<std::string> readBytes(const std::string& path, std::size_t most);

/// The boat in the file ("-": standard input); paths are named in the error.
[[nodiscard]] Result<file::BoatDocument> readBoat(const std::string& path);

/// A number and nothing else; empty if it is not one or not finite.
[[nodiscard]] std::optional<double> numberFrom(const std::string& word);

/// Takes words one by one.
class WordReader {
 public:
  explicit WordReader(Words words) : words_(words) {}
  [[nodiscard]] bool atEnd() const { return at_ == words_.size(); }
  const std::string& next() { return words_[at_++]; }
  /// The word that an option needs behind it; empty at the end.
  std::string value() { return atEnd() ? std::string{} : next(); }

 private:
  Words words_;
  std::size_t at_ = 0;
};

}  // namespace pondtrim::cli
