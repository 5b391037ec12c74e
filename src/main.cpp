#include "command/command.hpp"

int main(int argc, char** argv) { return rigdeed::command::run(argc, argv); }
