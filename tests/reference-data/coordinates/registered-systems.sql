-- Makes src/SiteProgress.Core/Coordinates/Definitions/registered-systems.csv from the register that PROJ ships (Debian's proj-data):
--   sqlite3 -readonly /usr/share/proj/proj.db < tests/reference-data/coordinates/registered-systems.sql \
--     > src/SiteProgress.Core/Coordinates/Definitions/registered-systems.csv
-- One line a projected system: authority, code, area of use (degrees), axes in the order of the register, each as name>direction.
.mode list
.headers off
select '# Projected systems: area of use and axes. Facts from the EPSG register ' || (select value from metadata where key = 'EPSG.VERSION')
  || ' (IOGP) and Esri''s list, as PROJ ' || (select value from metadata where key = 'PROJ.VERSION') || ' ships them in proj.db.';
select '# Made by tests/reference-data/coordinates/registered-systems.sql. Degrees; an area whose west is greater than its east crosses the 180th meridian.';
select 'authority,code,south,west,north,east,axes';
with area as (
  select u.object_auth_name as authority, u.object_code as code,
    min(e.south_lat) as south, max(e.north_lat) as north, min(e.west_lon) as west, max(e.east_lon) as east, count(*) as extents
  from usage u join extent e on e.auth_name = u.extent_auth_name and e.code = u.extent_code
  where u.object_table_name = 'projected_crs'
  group by 1, 2),
axes as (
  select coordinate_system_auth_name as authority, coordinate_system_code as code,
    group_concat(case when abbrev in ('', 'none') then name else replace(abbrev, ',', ' ') end || '>'
      || case when orientation in ('east', 'north', 'west', 'south') then orientation
              when name like '%Easting%' then 'east' when name like '%Northing%' then 'north' else '?' end, ' ') as axes
  from (select * from axis order by coordinate_system_auth_name, coordinate_system_code, coordinate_system_order)
  group by 1, 2)
select printf('%s,%d,%s,%s,%s,%s,%s', c.auth_name, c.code, a.south, a.west, a.north, a.east, x.axes)
from projected_crs c
join area a on a.authority = c.auth_name and a.code = c.code
left join axes x on x.authority = c.coordinate_system_auth_name and x.code = c.coordinate_system_code
where c.auth_name in ('EPSG', 'ESRI') and a.south is not null and a.west is not null
order by c.auth_name, cast(c.code as integer);
