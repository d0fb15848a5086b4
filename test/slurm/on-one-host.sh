#!/usr/bin/env bash
# Runs a sweep as a job array of a real Slurm, its draws as a second one, with a dependent merge, and compares the map with that of one machine.
# Needs slurmctld, slurmd, sbatch and munged (Debian: slurm-wlm), as root or for the own user alone; brings up a
# cluster of this one host in a folder of its own and takes down what it started, nothing else.
#
#   test/slurm/on-one-host.sh [SWEEP] [SHARES]
set -euo pipefail
cd "$(dirname "$0")/../.."

sweep=${1:-test/fixtures/draws.yaml}
shares=${2:-4}
gainscape="$(command -v node) $PWD/dist/cli/main.js"
export GAINSCAPE="$gainscape"
host=$(hostname -s)
home=$(mktemp -d /tmp/gainscape-slurm-XXXXXX)
export SLURM_CONF="$home/slurm.conf"
export XDG_CACHE_HOME="$home/cache"
started=()

stop() {
  code=$?
  for pid in "${started[@]}"; do kill "$pid" 2>/dev/null || true; done
  for pid in "${started[@]}"; do
    for _ in $(seq 50); do kill -0 "$pid" 2>/dev/null || break; sleep 0.1; done
  done
  if [ "$code" -eq 0 ]; then rm -rf "$home"; else echo "kept for inspection: $home"; fi
  exit "$code"
}
trap stop EXIT

for program in munged slurmctld slurmd sbatch squeue; do
  command -v "$program" > /dev/null || { echo "no $program here (Debian: apt-get install slurm-wlm)"; exit 2; }
done

mkdir -p "$home"/{munge,state,spool,jobs}
chmod 700 "$home/munge"
dd if=/dev/urandom of="$home/munge/key" bs=128 count=1 status=none
chmod 400 "$home/munge/key"
chmod 755 "$home"

cat > "$SLURM_CONF" <<CONF
ClusterName=one-host
SlurmctldHost=$host(127.0.0.1)
SlurmctldPort=16817
SlurmdPort=16818
AuthType=auth/munge
AuthInfo=socket=$home/munge.socket
CryptoType=crypto/munge
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
StateSaveLocation=$home/state
SlurmdSpoolDir=$home/spool
SlurmctldPidFile=$home/slurmctld.pid
SlurmdPidFile=$home/slurmd.pid
SlurmctldLogFile=$home/slurmctld.log
SlurmdLogFile=$home/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
MpiDefault=none
ReturnToService=2
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=nightly Nodes=$host Default=YES MaxTime=60 State=UP
CONF

munged --foreground --force --key-file="$home/munge/key" --socket="$home/munge.socket" \
  --pid-file="$home/munge/pid" --log-file="$home/munge/log" --seed-file="$home/munge/seed" 2> "$home/munge/err" &
started+=($!)
for _ in $(seq 50); do [ -S "$home/munge.socket" ] && break; sleep 0.1; done
slurmctld -D -i > "$home/slurmctld.out" 2>&1 &
started+=($!)
slurmd -D > "$home/slurmd.out" 2>&1 &
started+=($!)
for _ in $(seq 150); do sinfo -h -o %t 2>/dev/null | grep -q '^idle$' && break; sleep 0.2; done
sinfo -h -o %t | grep -q '^idle$' || { echo "the node never came up"; tail -5 "$home"/slurm*.out; exit 3; }

began=$(date +%s)
here="$PWD/test/slurm"
array_job=$(sbatch --parsable --chdir="$PWD" --output="$home/jobs/share-%a.log" --array="1-$shares" \
  "$here/shares.sbatch" "$sweep" "$home/shares")
grid_job=$array_job
if grep -q '^uncertainty:' "$sweep"; then
  array_job=$(sbatch --parsable --chdir="$PWD" --output="$home/jobs/draws-%a.log" --array="1-$shares" \
    --dependency="afterok:$grid_job" --kill-on-invalid-dep=yes "$here/shares.sbatch" "$sweep" "$home/shares" "$home/shares")
fi
merge_job=$(sbatch --parsable --chdir="$PWD" --output="$home/jobs/merge.log" --dependency="afterok:$array_job" \
  --kill-on-invalid-dep=yes "$here/merge.sbatch" "$home/shares" "$home/merged")
echo "array $grid_job of $shares shares, draws $array_job, merge $merge_job behind them"
queued() { [ -n "$(squeue -h -j "$grid_job,$array_job,$merge_job" 2>/dev/null)" ]; }
for _ in $(seq 2000); do queued || break; sleep 0.3; done # ten minutes
if queued; then
  squeue -j "$grid_job,$array_job,$merge_job"
  scancel "$grid_job" "$array_job" "$merge_job"
  echo "the jobs never ended"
  tail -n 5 "$home"/jobs/*.log
  exit 3
fi
took=$(($(date +%s) - began))
[ -s "$home/merged/map.json" ] || { echo "no map came of it"; tail -n 5 "$home"/jobs/*.log; exit 3; }

$gainscape sweep "$sweep" --out "$home/alone" --no-cache --quiet
cmp "$home/merged/map.json" "$home/alone/map.json"
cmp "$home/merged/points.csv" "$home/alone/points.csv"

# A share that is gone must be named, not papered over.
rm "$home/shares/shard-2-of-$shares.trials"
if $gainscape merge "$home/shares" --out "$home/never" 2> "$home/refused"; then echo "a gap went unseen"; exit 1; fi
grep -q "^shard-2-of-$shares.trials: this share is missing$" "$home/refused"
[ ! -e "$home/never" ]

echo "Slurm $(sbatch --version | cut -d' ' -f2): $shares shares and a merge in $took s, byte for byte the map of one machine ($(wc -c < "$home/alone/map.json") bytes); a missing share is refused by name."
