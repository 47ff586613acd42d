#include "widgets/palette.hpp"

namespace pondtrim::theme {
namespace {

struct Pair {
  Colour* colour;
  unsigned day, night;
};
const Pair kPairs[] = {
    {&kInk, 0x10222e, 0xf2e9dc},     {&kQuietInk, 0x33454f, 0xcfc6b8}, {&kPaper, 0xf4f7f9, 0x0b1217},
    {&kDock, 0xe3ebf0, 0x101a21},    {&kPlate, 0xffffff, 0x15202a},    {&kKey, 0xdde6ec, 0x22313c},
    {&kKeyDown, 0xbccdd8, 0x33495a}, {&kAccent, 0x0b4a75, 0x9fd0f0},   {&kAccentDown, 0x07344f, 0xd2e9f8},
    {&kTrack, 0xc3d0d9, 0x3b4c58},   {&kWater, 0x4f9fc4, 0x2f6f92},    {&kHull, 0x9db0ba, 0x5a6a73},
    {&kLine, 0xc1121f, 0xff6b70},    {&kWarning, 0x8a1020, 0xffb8b4},  {&kWarningGround, 0xfde9ea, 0x3a0f16}};
constexpr unsigned kNightShade = 120;

}  // namespace

Colour kInk, kQuietInk, kPaper, kDock, kPlate, kKey, kKeyDown, kAccent, kAccentDown, kTrack, kWater, kHull,
    kLine, kWarning, kWarningGround, kShade;

void chooseColours(bool night) {
  for (const Pair& pair : kPairs) *pair.colour = colour(night ? pair.night : pair.day);
  kShade = colour(0x000000, night ? kNightShade : 0);
}

}  // namespace pondtrim::theme
