#!/bin/sh
# Builds below .build/sanitizers, under the address and undefined-behaviour sanitizers:
#   tests/sanitized.sh TARGET...     nonrunner, tests, fuzz (every reader's), fuzz_NAME
# By clang, whose counters the fuzzer goes by: one build then serves the tests and the fuzzer, and each line has been read
# by two compilers, since the plain build is g++'s.
. "$(dirname "$0")/../sample-jobs/setup.sh"
need $build_packages clang-14 libclang-rt-14-dev
export CC=clang-14 CXX=clang++-14
CMAKE_OPTIONS="-DNONRUNNER_SANITIZE=ON -DNONRUNNER_FUZZ=ON -DCMAKE_BUILD_TYPE=Sanitized"
CMAKE_OPTIONS="$CMAKE_OPTIONS -DCMAKE_C_FLAGS_SANITIZED=-O1 -DCMAKE_CXX_FLAGS_SANITIZED=-O1"
build sanitizers "$@"
