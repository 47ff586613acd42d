#pragma once
// The pond log's answer in words and as JSON text.
#include <array>
#include <pondtrim/file/units.hpp>
#include <pondtrim/pond_log.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

/// A number and its standard deviation.
struct Spread {
  double value = 0.0, spread = 0.0;
};

/// What is missing in the file, as one condition feels it. Moments about correctionPoint().
struct BalanceFound {
  Spread weight;       ///< heavier than the file says [kg]
  Spread bow_moment;   ///< bow heavy + [kg m]
  Spread port_moment;  ///< to port + [kg m]
  std::optional<Spread>
      x;  ///< where the weight sits [m]; only when it is clear of its spread and lies on board
};

/// What the terminal's "correct" answers.
struct CorrectAnswer {
  Estimate estimate;
  BalanceFound surfaced, dived;         ///< tank empty; tank full and everything under water
  std::optional<Spread> height;         ///< G above where the file has it [m]; only when readings show it
  Outlook outlook;                      ///< of the boat as she is
  std::vector<PondNumber> close_calls;  ///< so near their limit that they should be read again
  NextChange next;
  std::vector<CoarseStep> coarse;  ///< places where one step is too much
  Boat applied;                    ///< with the change and the correction in; old readings keep their amounts
  Boat corrected;                  ///< the same without the change
  bool places_proposed = false;    ///< the boat had none
  PondStep step{};                 ///< what to do next
};

/// Error: the boat's faults.
[[nodiscard]] Result<CorrectAnswer> answerCorrect(const Boat& boat, const Tolerance& tolerance = {});

/// "Take 20 mL of foam out of the bow foam."
[[nodiscard]] std::string changeSentence(const Boat& boat, const PondChange& change,
                                         const UnitSet& units = kMetricUnits);
/// "The skin displaces 3.0 % more than the file says (± 4.0 %)."
[[nodiscard]] std::string guessSentence(const CauseGuess& guess, const UnitSet& units = kMetricUnits);
/// "Reading 2: the bow mark read 12.0 mm, but the fit of all readings gives 3.1 mm. Read it again."
[[nodiscard]] std::string doubtSentence(const Doubt& doubt, const UnitSet& units = kMetricUnits);
/// All doubts, and whether the readings as a whole lie where the file hardly allows.
[[nodiscard]] std::vector<std::string> doubtSentences(const Estimate& estimate,
                                                      const UnitSet& units = kMetricUnits);
/// "the sail with the tank full"
[[nodiscard]] const char* numberWords(PondNumber number);
/// "read with the tank full"
[[nodiscard]] const char* stepWords(PondStep step);
/// "the sail showing with the tank full"
[[nodiscard]] const char* readingWords(Outlook::Reading reading);

/// "One step of 10 mL at the bow foam turns her dived trim by 1.4°: ..."
[[nodiscard]] std::string coarseSentence(const Boat& boat, const CoarseStep& coarse,
                                         const UnitSet& units = kMetricUnits);

/// What the log found missing, doubts, guesses, and what the readings cannot see.
[[nodiscard]] std::vector<std::string> correctionSentences(const Boat& boat, const CorrectAnswer& answer,
                                                           const UnitSet& units = kMetricUnits);
/// What the next dip should show.
[[nodiscard]] std::vector<std::string> outlookSentences(const Outlook& outlook,
                                                        const UnitSet& units = kMetricUnits);
/// Done, or why not, and which further reading would tell most.
[[nodiscard]] std::vector<std::string> verdictSentences(const CorrectAnswer& answer);
/// The next change, and what to expect of it.
[[nodiscard]] std::vector<std::string> nextSentences(const CorrectAnswer& answer,
                                                     const UnitSet& units = kMetricUnits);

[[nodiscard]] std::string correctJson(const Boat& boat, const CorrectAnswer& answer);

}  // namespace pondtrim::file
