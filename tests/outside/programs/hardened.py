#!/usr/bin/env python3
"""What the program was built with against somebody who finds a mistake in a reader, read back from the binary.

    hardened.py PROGRAM

Ends with status 1 and a line for each safeguard that is missing. What each is: ELF gABI, the documentation of GCC 12 (-fstack-protector-strong, -fcf-protection) and of glibc 2.36 (_FORTIFY_SOURCE).
"""
import re
import subprocess
import sys


def readelf(*words):
    return subprocess.run(["readelf", "--wide", *words, sys.argv[1]], capture_output=True, text=True, check=True).stdout


header, segments, dynamic, symbols = (readelf(w) for w in ("-h", "-l", "-d", "--dyn-syms"))
landings = subprocess.run(["objdump", "-d", "--no-show-raw-insn", sys.argv[1]], capture_output=True, text=True, check=True).stdout.count(
    "endbr64")
stack = re.search(r"GNU_STACK.*", segments)
safeguards = {
    "position-independent (PIE)": re.search(r"Type:\s+DYN", header) and re.search(r"FLAGS_1.*\bPIE\b", dynamic),
    "relocations read-only (RELRO)": "GNU_RELRO" in segments,
    "all symbols bound at the start (BIND_NOW)": re.search(r"\bNOW\b", dynamic),
    "a stack that runs no code": stack and " RWE" not in stack.group(0),
    "a guard on each stack frame with an array": "__stack_chk_fail" in symbols,
    "calls that know the room they write to (_FORTIFY_SOURCE)": re.search(r"__\w+_chk\b(?<!__stack_chk)", symbols),
    "bounds of the standard library (_GLIBCXX_ASSERTIONS)": "__glibcxx_assert_fail" in symbols,
    # The note in the file (IBT, SHSTK) is dropped by the linker, since the start files and a library of Debian 12 have none;
    # the code of the program itself has its landing places all the same.
    "landing places for indirect calls (-fcf-protection)": landings > 1000,
}
missing = [name for name, there in safeguards.items() if not there]
for name in missing:
    print(f"missing: {name}")
print(f"{len(safeguards) - len(missing)} of {len(safeguards)} safeguards are in the binary")
sys.exit(1 if missing else 0)
