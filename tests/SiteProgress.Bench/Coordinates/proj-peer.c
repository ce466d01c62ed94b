/* The peer of ./bench coordinates: PROJ's own library, called from C as it is meant to be called.
 *
 *   proj-peer sweep                    reads "S AUTHORITY CODE COUNT" and COUNT lines "latitude longitude" (degrees from Greenwich);
 *                                      answers each point with "first second latitude longitude": the projected values in the order,
 *                                      sense and unit of the register, and those values brought back. "X reason" where there is none.
 *   proj-peer time FILE X0 Y0 E0 N0 A B PIPELINE
 *                                      times both directions over a file of points; see time_conversions below.
 */
#include <math.h>
#include <proj.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const double DEGREE = 3.14159265358979323846 / 180;

typedef struct { int is_latitude; double radians; } angle_axis;

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1e3 + t.tv_nsec / 1e6;
}

/* The two angular axes of a geographic system and its prime meridian, in radians. */
static int read_angles(PJ_CONTEXT *c, PJ *geographic, angle_axis axes[2], double *meridian)
{
    PJ *cs = proj_crs_get_coordinate_system(c, geographic);
    PJ *pm = proj_get_prime_meridian(c, geographic);
    int ok = cs && pm;
    for (int i = 0; ok && i < 2; i++) {
        const char *direction;
        ok = proj_cs_get_axis_info(c, cs, i, NULL, NULL, &direction, &axes[i].radians, NULL, NULL, NULL);
        if (ok) axes[i].is_latitude = strcmp(direction, "north") == 0;
    }
    double value, unit;
    ok = ok && proj_prime_meridian_get_parameters(c, pm, &value, &unit, NULL);
    if (ok) *meridian = value * unit;
    proj_destroy(cs);
    proj_destroy(pm);
    return ok;
}

static void answer_system(const char *authority, const char *code, int count)
{
    PJ_CONTEXT *c = proj_context_create();
    proj_log_level(c, PJ_LOG_NONE);
    PJ *crs = proj_create_from_database(c, authority, code, PJ_CATEGORY_CRS, 0, NULL);
    PJ *geographic = crs ? proj_crs_get_geodetic_crs(c, crs) : NULL;
    PJ *operation = geographic ? proj_create_crs_to_crs_from_pj(c, geographic, crs, NULL, NULL) : NULL;
    angle_axis axes[2];
    double meridian = 0;
    int ok = operation && read_angles(c, geographic, axes, &meridian);
    printf(ok ? "S %s %s\n" : "X %s %s: PROJ has no such system\n", authority, code);
    for (int i = 0; i < count; i++) {
        double latitude, longitude;
        if (scanf("%lf %lf", &latitude, &longitude) != 2) exit(2);
        if (!ok) continue;
        double east = longitude * DEGREE - meridian;
        double in[2];
        for (int k = 0; k < 2; k++) in[k] = (axes[k].is_latitude ? latitude * DEGREE : east) / axes[k].radians;
        proj_errno_reset(operation);
        PJ_COORD there = proj_trans(operation, PJ_FWD, proj_coord(in[0], in[1], 0, 0));
        proj_errno_reset(operation);
        PJ_COORD back = proj_trans(operation, PJ_INV, there);
        double out[2];
        for (int k = 0; k < 2; k++) out[k] = back.v[k] * axes[k].radians;
        double lat = axes[0].is_latitude ? out[0] : out[1], lon = axes[0].is_latitude ? out[1] : out[0];
        printf("%.17g %.17g %.17g %.17g\n", there.v[0], there.v[1], lat / DEGREE, (lon + meridian) / DEGREE);
    }
    proj_destroy(operation);
    proj_destroy(geographic);
    proj_destroy(crs);
    proj_context_destroy(c);
}

static int sweep(void)
{
    char authority[32], code[32];
    int count;
    while (scanf(" S %31s %31s %d", authority, code, &count) == 3) answer_system(authority, code, count);
    return 0;
}

/* time FILE ORIGIN_X ORIGIN_Y EAST NORTH A B PIPELINE
 * FILE holds pairs of doubles, site grid. Turns them into projected metres by the similarity, brings those to latitude and longitude in
 * degrees with proj_trans_generic, and all the way back; prints both times in milliseconds and writes FILE.out: latitude, longitude, x, y. */
static int time_conversions(char **v)
{
    FILE *f = fopen(v[0], "rb");
    if (!f) return 2;
    fseek(f, 0, SEEK_END);
    size_t n = (size_t)ftell(f) / (2 * sizeof(double));
    rewind(f);
    double *site = malloc(n * 2 * sizeof(double)), *geo = malloc(n * 2 * sizeof(double)), *back = malloc(n * 2 * sizeof(double));
    if (fread(site, 2 * sizeof(double), n, f) != n) return 2;
    fclose(f);
    /* Touched once, so that the system hands over its memory before the clock runs. */
    memset(geo, 1, n * 2 * sizeof(double));
    memset(back, 1, n * 2 * sizeof(double));
    double x0 = atof(v[1]), y0 = atof(v[2]), e0 = atof(v[3]), n0 = atof(v[4]), a = atof(v[5]), b = atof(v[6]);
    PJ_CONTEXT *c = proj_context_create();
    PJ *p = proj_create(c, v[7]);
    if (!p) return 3;
    const size_t step = 2 * sizeof(double);
    double start = now_ms();
    for (size_t i = 0; i < n; i++) {
        double x = site[2 * i] - x0, y = site[2 * i + 1] - y0;
        geo[2 * i] = e0 + (a * x - b * y);
        geo[2 * i + 1] = n0 + (b * x + a * y);
    }
    proj_trans_generic(p, PJ_INV, geo, step, n, geo + 1, step, n, NULL, 0, 0, NULL, 0, 0);
    for (size_t i = 0; i < n; i++) {
        double lambda = geo[2 * i];
        geo[2 * i] = geo[2 * i + 1] / DEGREE;
        geo[2 * i + 1] = lambda / DEGREE;
    }
    double there = now_ms() - start;
    start = now_ms();
    for (size_t i = 0; i < n; i++) {
        back[2 * i] = geo[2 * i + 1] * DEGREE;
        back[2 * i + 1] = geo[2 * i] * DEGREE;
    }
    proj_trans_generic(p, PJ_FWD, back, step, n, back + 1, step, n, NULL, 0, 0, NULL, 0, 0);
    double d = a * a + b * b;
    for (size_t i = 0; i < n; i++) {
        double e = back[2 * i] - e0, w = back[2 * i + 1] - n0;
        back[2 * i] = x0 + (a * e + b * w) / d;
        back[2 * i + 1] = y0 + (a * w - b * e) / d;
    }
    printf("%.6f %.6f\n", there, now_ms() - start);
    char name[4096];
    snprintf(name, sizeof name, "%s.out", v[0]);
    f = fopen(name, "wb");
    if (!f || fwrite(geo, 2 * sizeof(double), n, f) != n || fwrite(back, 2 * sizeof(double), n, f) != n) return 2;
    return fclose(f);
}

int main(int argc, char **argv)
{
    if (argc == 2 && strcmp(argv[1], "sweep") == 0) return sweep();
    if (argc == 10 && strcmp(argv[1], "time") == 0) return time_conversions(argv + 2);
    fprintf(stderr, "use: proj-peer sweep | proj-peer time FILE X0 Y0 E0 N0 A B PIPELINE\n");
    return 1;
}
