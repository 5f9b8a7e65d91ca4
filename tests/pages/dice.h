#pragma once
// Random figures that are the same with every standard library: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014),
// normal deviates by Box and Muller.

#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>

namespace headmark::pages {

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    // FNV-1a of a name.
    explicit Dice(const std::string& name) : state_(0xcbf29ce484222325ULL) {
        for (const char letter : name)
            state_ = (state_ ^ static_cast<unsigned char>(letter)) * 0x100000001b3ULL;
    }

    std::uint64_t next() {
        state_ += 0x9e3779b97f4a7c15ULL;
        std::uint64_t mixed = state_;
        mixed = (mixed ^ (mixed >> 30)) * 0xbf58476d1ce4e5b9ULL;
        mixed = (mixed ^ (mixed >> 27)) * 0x94d049bb133111ebULL;
        return mixed ^ (mixed >> 31);
    }
    // In [0, 1).
    double share() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
    double between(double low, double high) { return low + (high - low) * share(); }
    // Both ends included.
    int whole(int low, int high) {
        return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    double normal() {
        const double radius = std::sqrt(-2.0 * std::log(1.0 - share()));
        return radius * std::cos(2.0 * std::numbers::pi * share());
    }
    // Sum of eight 8-bit uniforms, of variance 8 (256^2 - 1)/12: near enough for the noise of a scan.
    double quickNormal() {
        std::uint64_t bits = next();
        int sum = 0;
        for (int k = 0; k < 8; ++k, bits >>= 8)
            sum += static_cast<int>(bits & 0xff);
        return (sum - 8 * 127.5) / std::sqrt(8.0 * 65535.0 / 12.0);
    }

  private:
    std::uint64_t state_;
};

} // namespace headmark::pages
