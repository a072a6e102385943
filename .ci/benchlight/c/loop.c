/* The plain double loop that the sheet of lux is set beside: every lamp, every
 * cell, the library's acos and atan2, a table in even steps, no culling. Reads
 * lamps and grid as text, writes the lux as doubles, prints its processor time. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

struct lamp {
	double x, y, z, bearing, tilt, spin;
	int nc, ng; /* planes over 360 degrees, angles over 180 */
	double *cd;
};

static void column(const struct lamp *l, double v[3])
{
	double s, c, x, y;
	s = sin(l->spin), c = cos(l->spin);
	x = c * v[0] - s * v[1], y = s * v[0] + c * v[1], v[0] = x, v[1] = y;
	s = sin(l->tilt), c = cos(l->tilt);
	x = c * v[0] - s * v[2], y = s * v[0] + c * v[2], v[0] = x, v[2] = y;
	s = sin(l->bearing), c = cos(l->bearing);
	x = c * v[0] - s * v[1], y = s * v[0] + c * v[1], v[0] = x, v[1] = y;
}

static double intensity(const struct lamp *l, double c, double g)
{
	double gs = g * (l->ng - 1) / M_PI, cs, k, m, a, b;
	int j = (int)gs, i;
	const double *t = l->cd;
	if (j > l->ng - 2)
		j = l->ng - 2;
	k = gs - j;
	if (l->nc == 1)
		return t[j] + k * (t[j + 1] - t[j]);
	if (c < 0)
		c += 2 * M_PI;
	cs = c * (l->nc - 1) / (2 * M_PI);
	i = (int)cs;
	if (i > l->nc - 2)
		i = l->nc - 2;
	m = cs - i;
	t += i * l->ng + j;
	a = t[0] + k * (t[1] - t[0]);
	b = t[l->ng] + k * (t[l->ng + 1] - t[l->ng]);
	return a + m * (b - a);
}

int main(int argc, char **argv)
{
	int n, w, h;
	double x0, y0, step;
	FILE *f = fopen(argv[1], "r");
	if (argc < 3 || !f || fscanf(f, "%d %d %d %lf %lf %lf", &n, &w, &h, &x0, &y0, &step) != 6)
		return 1;
	struct lamp *lamps = calloc(n, sizeof *lamps);
	double *out = calloc((size_t)w * h, sizeof *out);
	for (int i = 0; i < n; i++) {
		struct lamp *l = lamps + i;
		if (fscanf(f, "%lf %lf %lf %lf %lf %lf %d %d", &l->x, &l->y, &l->z, &l->bearing, &l->tilt, &l->spin, &l->nc, &l->ng) != 8)
			return 1;
		l->cd = malloc(sizeof(double) * l->nc * l->ng);
		for (int k = 0; k < l->nc * l->ng; k++)
			if (fscanf(f, "%lf", l->cd + k) != 1)
				return 1;
	}
	clock_t begun = clock();
	for (int i = 0; i < n; i++) {
		const struct lamp *l = lamps + i;
		double ax[3] = {1, 0, 0}, ay[3] = {0, 1, 0}, az[3] = {0, 0, 1};
		column(l, ax), column(l, ay), column(l, az);
		for (int y = 0; y < h; y++)
			for (int x = 0; x < w; x++) {
				double dx = x0 + (x + 0.5) * step - l->x, dy = y0 + (y + 0.5) * step - l->y, dz = -l->z;
				double d = sqrt(dx * dx + dy * dy + dz * dz);
				double ux = dx / d, uy = dy / d, uz = dz / d;
				if (uz >= 0)
					continue;
				double g = acos(fmax(-1, fmin(1, -(az[0] * ux + az[1] * uy + az[2] * uz))));
				double c = 0;
				if (l->nc > 1)
					c = atan2(ay[0] * ux + ay[1] * uy + ay[2] * uz, ax[0] * ux + ax[1] * uy + ax[2] * uz);
				double e = fmax(d, 0.05);
				out[y * w + x] += intensity(l, c, g) * -uz / (e * e);
			}
	}
	printf("%.6f\n", (double)(clock() - begun) / CLOCKS_PER_SEC);
	f = fopen(argv[2], "wb");
	return !f || fwrite(out, sizeof *out, (size_t)w * h, f) != (size_t)w * h || fclose(f);
}
