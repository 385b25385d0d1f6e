# Installs, uses, upgrades, removes and purges the package inside a copy of this machine; /mnt holds one.deb and two.deb. Tells facts as name=value.
set -eu
exec 2>>/mnt/said.log
fact() { printf '%s=%s\n' "$1" "$2"; }
rights() { stat -c '%a %U:%G' "$1" 2>/dev/null || echo none; }
there() { if [ -e "$1" ]; then echo yes; else echo no; fi; }
state() { dpkg-query -W -f='${db:Status-Status} ${Version}' strokewatch 2>/dev/null || echo none; }
as_daemon() { setpriv --reuid strokewatch --regid strokewatch --init-groups --no-new-privs --inh-caps=-all "$@" </dev/null; }
data=/var/lib/strokewatch
config=/etc/strokewatch/strokewatch.toml
export LC_ALL=C

dpkg -i /mnt/one.deb >/mnt/install.log 2>&1
fact installed "$(state)"
fact said_at_install "$(grep -c 'write your feeder and your sensor' /mnt/install.log)"
fact user "$(getent passwd strokewatch | cut -d: -f6,7)"
fact groups_known "$(getent group dialout i2c spi gpio | wc -l)"
fact folder "$(rights /etc/strokewatch)"
fact config "$(rights $config)"
fact data "$(rights $data)"
fact enabled "$(there /etc/systemd/system/multi-user.target.wants/strokewatch.service)"

export HOME=$data
cd $data
fact version "$(as_daemon strokewatch --version)"
status=0; as_daemon strokewatch check >/mnt/check.log 2>&1 || status=$?
fact check "$status"
status=0; as_daemon timeout --preserve-status -s TERM 9 strokewatch watch --demo --demo-folder $data/demo --demo-page 127.0.0.1:0 >/mnt/demo.log 2>&1 || status=$?
fact demo "$status"
fact demo_store "$(rights $data/demo/demo.db)"

echo 'kept' >$data/strokewatch.db
sed -i 's/^keep_days = 90 /keep_days = 91 /' $config
echo 'secret' >/etc/strokewatch/influx.token
dpkg -i /mnt/two.deb >/mnt/upgrade.log 2>&1 </dev/null
fact upgraded "$(state)"
fact upgraded_config "$(rights $config) $(grep -c '^keep_days = 91' $config)"
fact upgraded_data "$(cat $data/strokewatch.db)"
fact upgraded_says "$(grep -c 'write your feeder' /mnt/upgrade.log || true)"

cd /
dpkg -r strokewatch >/mnt/remove.log 2>&1
fact removed "$(state)"
fact removed_program "$(there /usr/bin/strokewatch) $(there /usr/lib/strokewatch)"
fact removed_config "$(grep -c '^keep_days = 91' $config)"
fact removed_data "$(cat $data/strokewatch.db)"

dpkg -P strokewatch >/mnt/purge.log 2>&1
fact purged "$(state)"
fact purged_config "$(there $config)"
fact purged_secret "$(there /etc/strokewatch/influx.token)"
fact purged_data "$(cat $data/strokewatch.db)"
fact purge_says "$(grep -c 'kept in /var/lib/strokewatch' /mnt/purge.log)"

rm -r /etc/strokewatch
dpkg -i /mnt/two.deb >>/mnt/install.log 2>&1
fact again "$(cat $data/strokewatch.db)"
STROKEWATCH_PURGE_DATA=1 dpkg -P strokewatch >>/mnt/purge.log 2>&1
fact all_gone "$(there $data) $(there /etc/strokewatch) $(getent passwd strokewatch >/dev/null && echo user || echo nobody)"

# Who purges at a terminal is asked.
for answer in no yes; do
    dpkg -i /mnt/two.deb >>/mnt/install.log 2>&1 </dev/null
    echo 'kept' >$data/strokewatch.db
    printf '%s\n' "$answer" | DEBIAN_FRONTEND=teletype dpkg -P strokewatch >/mnt/asked-$answer.log 2>&1
    fact "asked_$answer" "$(grep -c 'Remove the readings, alarms and machine books' /mnt/asked-$answer.log) $(there $data/strokewatch.db) $(state)"
    rm -rf /etc/strokewatch
done
