#pragma once
// The commands of the terminal program. Each is one file, cli/NAME_command.cpp, with one function that takes
// the words after the command's name, prints its answer on stdout and returns the exit code.
#include <span>
#include <string>

namespace pondtrim::cli {

using Words = std::span<const std::string>;

inline constexpr int kSolved = 0;
inline constexpr int kBadInput = 2;

struct Command {
  const char* name;
  const char* usage;  ///< what follows the name
  const char* help;
  int (*run)(Words words);
};

int runFloat(Words words);
int runCheck(Words words);
int runPlan(Words words);
int runDive(Words words);
int runBallast(Words words);
int runCorrect(Words words);
int runHull(Words words);
int runMesh(Words words);

}  // namespace pondtrim::cli
