#include <exception>
#include <iostream>

#include "dosewright/app/app.hpp"

int main(int argc, char** argv) {
  try {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    return static_cast<int>(dosewright::run(arguments, std::cout, std::cerr));
  } catch (const std::exception& fault) {
    std::cerr << "dosewright: a fault of the program, please report it: " << fault.what() << '\n';
    return static_cast<int>(dosewright::ExitStatus::could_not_write);
  }
}
