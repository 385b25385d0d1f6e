"""Runs a program under the system calls that a systemd unit leaves it: confine.py UNIT PROGRAM ARGUMENTS...

What SystemCallFilter= names is expanded by systemd-analyze; MemoryDenyWriteExecute=yes forbids what systemd.exec(5) says it forbids.
The filter is made by libseccomp, as systemd does it. Ends with status 77 where the machine lacks any of these."""
import ctypes
import ctypes.util
import os
import subprocess
import sys

ALLOW, EPERM = 0x7FFF0000, 0x00050000 | 1
MASKED_EQUAL = 7


class Argument(ctypes.Structure):
    _fields_ = [("number", ctypes.c_uint), ("how", ctypes.c_int), ("a", ctypes.c_uint64), ("b", ctypes.c_uint64)]


def expand(name):
    if not name.startswith("@"):
        return {name}
    said = subprocess.run(["systemd-analyze", "syscall-filter", name], capture_output=True, text=True)
    if said.returncode != 0:
        sys.exit(77)
    calls = set()
    for line in said.stdout.splitlines()[1:]:
        word = line.strip()
        if word and not word.startswith("#"):
            calls |= expand(word)
    return calls


def allowed(lines):
    calls = set()
    for line in lines:
        if line.startswith("SystemCallFilter="):
            words = line.split("=", 1)[1]
            for word in words.lstrip("~").split():
                calls = calls - expand(word) if words.startswith("~") else calls | expand(word)
    return calls


unit, program = sys.argv[1], sys.argv[2:]
lines = [line.strip() for line in open(unit, encoding="utf-8")]
# The sets that systemd takes for granted in every allow list.
calls = allowed(lines) | {"execve", "exit", "exit_group", "rt_sigreturn", "sigreturn"}
if len(calls) < 50 or not ctypes.util.find_library("seccomp"):
    sys.exit(77)
seccomp = ctypes.CDLL(ctypes.util.find_library("seccomp"), use_errno=True)
seccomp.seccomp_init.restype = ctypes.c_void_p
seccomp.seccomp_load.argtypes = [ctypes.c_void_p]
add = seccomp.seccomp_rule_add_array
add.argtypes = [ctypes.c_void_p, ctypes.c_uint32, ctypes.c_int, ctypes.c_uint, ctypes.POINTER(Argument)]


def number(call):
    return seccomp.seccomp_syscall_resolve_name(call.encode())


def load(context):
    if seccomp.seccomp_load(context) != 0:
        sys.exit(77)


def no_new_privileges():
    ctypes.CDLL(None).prctl(38, 1, 0, 0, 0)


no_new_privileges()
filters = seccomp.seccomp_init(EPERM)
for call in sorted(calls):
    if number(call) != -1:
        add(filters, ALLOW, number(call), 0, None)
memory = seccomp.seccomp_init(ALLOW)
if "MemoryDenyWriteExecute=yes" in lines:
    for call, argument, bits in (("mmap", 2, 6), ("mprotect", 2, 4), ("pkey_mprotect", 2, 4), ("shmat", 2, 0o100000)):
        add(memory, EPERM, number(call), 1, ctypes.byref(Argument(argument, MASKED_EQUAL, bits, bits)))
load(memory)
load(filters)
os.execv(program[0], program)
