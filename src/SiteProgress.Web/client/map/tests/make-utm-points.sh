#!/bin/bash
# Makes utm-points.csv with PROJ's cs2cs (Debian proj-bin): WGS 84 to UTM zone 54N on two square grids of 15 x 15 points around 43.52 N 141.30 E.
set -euo pipefail
cd "$(dirname "$0")"
{
  echo "# what       WGS 84 latitude, longitude to UTM zone 54N easting, northing, on two grids of 15 x 15 points"
  echo "# source     PROJ $(cs2cs 2>&1 | sed -n 's/^Rel. \([0-9.]*\),.*/\1/p'), cs2cs -f %.5f EPSG:4326 EPSG:32654; made by make-utm-points.sh"
  echo "# unit       degrees, metres"
  echo "# tolerance  0.00001 m, the digits printed"
  echo "site,latitude,longitude,easting,northing"
  for site in "3km 0.0135 0.0186" "20km 0.09 0.124"; do
    read -r name north east <<< "$site"
    awk -v a="$north" -v b="$east" 'BEGIN { for (i = 0; i < 15; i++) for (j = 0; j < 15; j++) printf "%.9f %.9f\n", 43.52 + a * (i / 7 - 1), 141.30 + b * (j / 7 - 1) }' |
      cs2cs -f %.5f -E EPSG:4326 EPSG:32654 | awk -v name="$name" '{ print name "," $1 "," $2 "," $3 "," $4 }'
  done
} > utm-points.csv
