// pondtrim: boat file in, JSON out, for scripts and tests.
#include <cstdio>
#include <string>
#include <vector>

#include "commands.hpp"

namespace {

using namespace pondtrim::cli;

constexpr Command kCommands[] = {
    {"float", "FILE [--fill-mL N | --fill empty|full] [--fresh|--salt] [--temperature-C T]",
     "Solves one condition and prints the report as JSON. Without options: tank empty, in the boat's own "
     "water.\n"
     "      A boat that sinks is an answer too (outcome \"sinks\").",
     runFloat},
    {"dive", "FILE [--steps N] [--scope-mm D]",
     "Sweeps the tank from empty to full and back, in the boat's own water: trim, drafts and GM at each "
     "fill, "
     "what\n      goes wrong and what helps, righting levers, hover (with a scope D mm thick when the sail "
     "is "
     "under). Prints JSON.",
     runDive},
    {"ballast", "FILE [--depth-m D]",
     "Pump or gas, depth, and an estimate of the cylinder's strength at D metres (1 without the option). "
     "Prints JSON.",
     runBallast},
    {"plan",
     "FILE [--least weight|changes] [--most stability] [--whole-pieces] [--lead-budget-g N] "
     "[--propose-places] [--diagrams]",
     "How much foam and lead at the boat's places puts tank empty and tank full right at once: the plan and "
     "its\n"
     "      proof as JSON, or what stands in the way. Without options: least weight. --propose-places adds "
     "places\n"
     "      of our own; --diagrams weight against stability, and the equilibrium polygons.",
     runPlan},
    {"correct", "FILE [--apply]",
     "What the readings in the boat's log say: what the file has wrong, what the next dip should show, and "
     "the next\n      change. Prints JSON; with --apply the boat file with the correction in it, and\n      "
     "the change when that is the next step.",
     runCorrect},
    {"hull", "FILE",
     "Area, mass and room of each piece of the hull, its sectional areas, where the painted line runs round "
     "it\n      (way along the skin from keel and deck at stations, for masking tape), and where air stays "
     "above the\n      openings listed. Prints JSON.",
     runHull},
    {"mesh", "FILE",
     "What a mesh from a drawing program is (STL or OBJ): closed or open, what is wrong with it, what could "
     "be\n"
     "      repaired; area, volume and extent in the file's own unit. Prints JSON.",
     runMesh},
    {"check", "FILE",
     "Reads the boat and names the first fault, or the parts of the file that have no effect.", runCheck},
};

void printHelp(std::FILE* out) {
  std::fputs("pondtrim: where a model submarine floats, and how it hangs when dived.\n\n", out);
  for (const Command& c : kCommands)
    std::fprintf(out, "  pondtrim %s %s\n      %s\n\n", c.name, c.usage, c.help);
  std::fputs(
      "  pondtrim help\n\nFILE is a *.boat.json, or - for standard input.\n"
      "Exit code: 0 solved, 2 wrong input (the reason is on standard error).\n"
      "Results are estimates: test in shallow water, and keep the boat slightly buoyant when dived.\n",
      out);
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  if (words.empty()) {
    printHelp(stderr);
    return kBadInput;
  }
  if (words[0] == "help" || words[0] == "--help" || words[0] == "-h") {
    printHelp(stdout);
    return kSolved;
  }
  for (const Command& command : kCommands)
    if (words[0] == command.name) return command.run(Words(words).subspan(1));
  std::string names;
  for (const Command& command : kCommands) names += std::string(command.name) + ", ";
  std::fprintf(stderr, "pondtrim: there is no command \"%s\". Commands: %shelp.\n", words[0].c_str(),
               names.c_str());
  return kBadInput;
}
