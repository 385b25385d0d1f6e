#!/bin/sh
# Runs a script inside a copy of this machine: in-a-copy.sh SCRIPT FOLDER. What it writes goes to memory and is gone afterwards;
# FOLDER is seen inside as /mnt. Ends with 77 where the machine allows no such copy.
set -u
[ "${1:-}" = inside ] || exec unshare --mount --pid --fork --kill-child "$0" inside "$@" || exit 77
shift
script=$1 folder=$2
root=$(mktemp -d) || exit 77
mount --make-rprivate / && mount -t tmpfs none "$root" && mkdir "$root/upper" "$root/work" "$root/copy" &&
    mount -t overlay overlay -o "lowerdir=/,upperdir=$root/upper,workdir=$root/work" "$root/copy" &&
    mount -t proc proc "$root/copy/proc" && mount --rbind /dev "$root/copy/dev" &&
    mount -t tmpfs none "$root/copy/tmp" && mount -t tmpfs none "$root/copy/run" && mount --bind "$folder" "$root/copy/mnt" || exit 77
exec chroot "$root/copy" /bin/sh "/mnt/$script"
