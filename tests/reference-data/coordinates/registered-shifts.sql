-- Makes src/SiteProgress.Core/Coordinates/Definitions/registered-shifts.csv from the register that PROJ ships (Debian's proj-data):
--   sqlite3 -readonly /usr/share/proj/proj.db < tests/reference-data/coordinates/registered-shifts.sql \
--     > src/SiteProgress.Core/Coordinates/Definitions/registered-shifts.csv
-- One line a published shift between two geographic systems, valid ones only. method: EPSG code of the method, or "grid" where a grid file is needed.
.mode list
.headers off
select '# Shifts between geographic systems. Facts from the EPSG register ' || (select value from metadata where key = 'EPSG.VERSION')
  || ' (IOGP), as PROJ ' || (select value from metadata where key = 'PROJ.VERSION') || ' ships them in proj.db.';
select '# Made by tests/reference-data/coordinates/registered-shifts.sql. Metres, microradians, parts per million, degrees.';
select 'code,name,method,from code,from name,from a,from 1/f,to code,to name,to a,to 1/f,accuracy,tx,ty,tz,rx,ry,rz,scale,px,py,pz,south,west,north,east';
with system as (
  select c.auth_name, c.code, c.name, e.semi_major_axis * u.conv_factor as a,
    coalesce(e.inv_flattening, e.semi_major_axis / (e.semi_major_axis - e.semi_minor_axis)) as rf
  from geodetic_crs c
  join geodetic_datum d on d.auth_name = c.datum_auth_name and d.code = c.datum_code
  join ellipsoid e on e.auth_name = d.ellipsoid_auth_name and e.code = d.ellipsoid_code
  join unit_of_measure u on u.auth_name = e.uom_auth_name and u.code = e.uom_code
  where c.auth_name = 'EPSG' and c.type = 'geographic 2D'),
area as (
  select o.object_auth_name as authority, o.object_code as code, o.object_table_name as kind,
    min(e.south_lat) as south, max(e.north_lat) as north, min(e.west_lon) as west, max(e.east_lon) as east
  from usage o join extent e on e.auth_name = o.extent_auth_name and e.code = o.extent_code
  where o.object_table_name in ('helmert_transformation', 'grid_transformation') group by 1, 2, 3),
shift as (
  select h.auth_name, h.code, 'helmert_transformation' as kind, h.name, cast(h.method_code as text) as method,
    h.source_crs_auth_name, h.source_crs_code, h.target_crs_auth_name, h.target_crs_code, h.accuracy,
    tx * lu.conv_factor as tx, ty * lu.conv_factor as ty, tz * lu.conv_factor as tz,
    coalesce(rx * ru.conv_factor * 1e6, 0) as rx, coalesce(ry * ru.conv_factor * 1e6, 0) as ry, coalesce(rz * ru.conv_factor * 1e6, 0) as rz,
    coalesce(scale_difference * su.conv_factor * 1e6, 0) as scale, coalesce(px, 0) as px, coalesce(py, 0) as py, coalesce(pz, 0) as pz
  from helmert_transformation h
  join unit_of_measure lu on lu.auth_name = h.translation_uom_auth_name and lu.code = h.translation_uom_code
  left join unit_of_measure ru on ru.auth_name = h.rotation_uom_auth_name and ru.code = h.rotation_uom_code
  left join unit_of_measure su on su.auth_name = h.scale_difference_uom_auth_name and su.code = h.scale_difference_uom_code
  where h.auth_name = 'EPSG' and h.deprecated = 0 and h.method_code in ('9603', '9606', '9607', '9636', '1063')
  union all
  select g.auth_name, g.code, 'grid_transformation', g.name, 'grid', g.source_crs_auth_name, g.source_crs_code, g.target_crs_auth_name, g.target_crs_code,
    g.accuracy, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0
  from grid_transformation g where g.auth_name = 'EPSG' and g.deprecated = 0)
select printf('%d,%s,%s,%s,%s,%.15g,%.15g,%s,%s,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g,%.15g',
  x.code, replace(x.name, ',', ';'), x.method, s.code, replace(s.name, ',', ';'), s.a, s.rf, t.code, replace(t.name, ',', ';'), t.a, t.rf, x.accuracy,
  x.tx, x.ty, x.tz, x.rx, x.ry, x.rz, x.scale, x.px, x.py, x.pz, r.south, r.west, r.north, r.east)
from shift x
join system s on s.auth_name = x.source_crs_auth_name and s.code = x.source_crs_code
join system t on t.auth_name = x.target_crs_auth_name and t.code = x.target_crs_code
join area r on r.authority = x.auth_name and r.code = x.code and r.kind = x.kind
where x.accuracy is not null
order by cast(s.code as integer), cast(t.code as integer), cast(x.code as integer);
