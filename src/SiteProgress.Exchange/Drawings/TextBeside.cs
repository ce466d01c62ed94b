namespace SiteProgress.Exchange.Drawings;

/// <summary>Finds which text stands beside which place of a drawing: each text belongs to one place, each place has one text.</summary>
internal static class TextBeside
{
    /// <summary>A text nearer to another place by less than this share of its distance could be either's.</summary>
    private const double ClearlyNearer = 0.8;

    /// <summary>The text of each place; null where none stands beside it, an empty text where two could be meant.</summary>
    /// <param name="places">Places.</param>
    /// <param name="texts">Texts.</param>
    public static string?[] Find(IReadOnlyList<DxfEntity> places, IReadOnlyList<DxfEntity> texts)
    {
        var found = new string?[places.Count];
        if (places.Count == 0 || texts.Count == 0)
            return found;
        var grid = new PlaceGrid(places);
        var pairs = new List<(double Distance, int Place, int Text, bool IsClear)>();
        for (var text = 0; text < texts.Count; text++)
        {
            if (grid.TwoNearest(texts[text].X, texts[text].Y) is not var (place, distance, next))
                continue;
            // A text stands nearer to its place than half the way to the next one would allow for both.
            if (distance <= grid.Spacing)
                pairs.Add((distance, place, text, distance <= ClearlyNearer * next));
        }

        foreach (var (_, place, text, isClear) in pairs.OrderBy(pair => pair.Distance).ThenBy(pair => pair.Text))
            found[place] ??= isClear ? Plain(texts[text].Text) : "";
        return found;
    }

    /// <summary>A text without the marks that only change how it looks: %%u and %%o, and in longer texts braces and codes.</summary>
    private static string Plain(string text)
    {
        var plain = text.Replace("%%u", "", StringComparison.OrdinalIgnoreCase).Replace("%%o", "", StringComparison.OrdinalIgnoreCase);
        var end = plain.LastIndexOf(';');
        if (plain.StartsWith("{\\", StringComparison.Ordinal) && end > 0)
            plain = plain[(end + 1)..];
        return plain.Trim('{', '}', ' ').Replace("\\P", " ", StringComparison.Ordinal);
    }

    /// <summary>Places in square cells, to look only at those near by.</summary>
    private sealed class PlaceGrid
    {
        private const int MostInCell = 16;
        private const int MostRings = 8;

        private readonly IReadOnlyList<DxfEntity> _places;
        private Dictionary<(long, long), List<int>> _cells = [];
        private double _side;

        public PlaceGrid(IReadOnlyList<DxfEntity> places)
        {
            _places = places;
            _side = Math.Max(1, Math.Max(places.Max(place => place.X) - places.Min(place => place.X), places.Max(place => place.Y) - places.Min(place => place.Y)));
            // Zones far apart leave most of the plane empty, so the cells are halved until the fullest holds few.
            for (var halving = 0; halving < 40; halving++)
            {
                Fill();
                if (_cells.Values.Max(cell => cell.Count) <= MostInCell)
                    break;
                _side /= 2;
            }

            Spacing = SpacingOf();
        }

        /// <summary>Usual distance from a place to the next one: the median of up to 1,000 of them.</summary>
        public double Spacing { get; }

        /// <summary>The nearest place, its distance, and the distance of the next nearest that lies elsewhere; null where none is near.</summary>
        public (int Place, double Distance, double Next)? TwoNearest(double x, double y)
        {
            var (column, row) = Key(x, y);
            (int Place, double Distance, double Next) best = (-1, double.PositiveInfinity, double.PositiveInfinity);
            for (var ring = 0; ring <= MostRings; ring++)
            {
                for (var across = -ring; across <= ring; across++)
                {
                    for (var up = -ring; up <= ring; up++)
                    {
                        if (Math.Max(Math.Abs(across), Math.Abs(up)) == ring && _cells.TryGetValue((column + across, row + up), out var cell))
                            best = Nearer(best, cell, x, y);
                    }
                }

                if (best.Next <= ring * _side)
                    break;
            }

            return best.Place < 0 ? null : best;
        }

        private void Fill()
        {
            _cells = [];
            for (var index = 0; index < _places.Count; index++)
            {
                var key = Key(_places[index].X, _places[index].Y);
                if (!_cells.TryGetValue(key, out var cell))
                    _cells[key] = cell = [];
                // Hundreds of places in one spot are no layout; the nearest is one of the first all the same.
                if (cell.Count < 200)
                    cell.Add(index);
            }
        }

        private (int, double, double) Nearer((int Place, double Distance, double Next) best, List<int> cell, double x, double y)
        {
            foreach (var index in cell)
            {
                var distance = Math.Sqrt(Math.Pow(_places[index].X - x, 2) + Math.Pow(_places[index].Y - y, 2));
                if (distance < best.Distance)
                    best = (index, distance, best.Distance);
                else if (distance < best.Next)
                    best.Next = distance;
            }

            return best;
        }

        private double SpacingOf()
        {
            var step = Math.Max(1, _places.Count / 1_000);
            double[] distances =
            [
                .. Enumerable.Range(0, _places.Count).Where(index => index % step == 0)
                    .Select(index => TwoNearest(_places[index].X, _places[index].Y)?.Next ?? double.PositiveInfinity)
                    .Where(double.IsFinite).Order(),
            ];
            return distances.Length == 0 ? double.PositiveInfinity : distances[distances.Length / 2];
        }

        private (long, long) Key(double x, double y) => ((long)Math.Floor(Math.Clamp(x / _side, -1e15, 1e15)), (long)Math.Floor(Math.Clamp(y / _side, -1e15, 1e15)));
    }
}
