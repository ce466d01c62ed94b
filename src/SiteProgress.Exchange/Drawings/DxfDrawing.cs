using System.Globalization;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.Drawings;

/// <summary>The points, circles, inserts and texts of a drawing, with blocks put in place.</summary>
internal sealed class DxfDrawing
{
    private const int MostDepth = 16;
    private const int MostOfBlocks = 200_000;

    private readonly Dictionary<string, Block> _blocks = new(StringComparer.OrdinalIgnoreCase);
    private readonly int _mostPlaces;
    private int _inBlocks;

    private DxfDrawing(int mostPlaces) => _mostPlaces = mostPlaces;

    /// <summary>Places a pile may be meant by: points, circles, inserts.</summary>
    public List<DxfEntity> Places { get; } = [];

    /// <summary>Texts beside them.</summary>
    public List<DxfEntity> Texts { get; } = [];

    /// <summary>Circles that were taken together with the point or insert at their centre.</summary>
    public int MergedCircles { get; private set; }

    /// <summary>Unit of the drawing by its header variable $INSUNITS; null where it has none.</summary>
    public string? Unit { get; private set; }

    /// <summary>Kinds that were passed over, with how many of each.</summary>
    public IReadOnlyDictionary<string, int> PassedOver { get; private set; } = new Dictionary<string, int>();

    /// <summary>Reads a drawing.</summary>
    /// <param name="pairs">The drawing.</param>
    /// <param name="mostPlaces">Most places that are kept.</param>
    public static DxfDrawing Read(DxfPairs pairs, int mostPlaces)
    {
        var drawing = new DxfDrawing(mostPlaces);
        var hasEntities = false;
        while (pairs.Next())
        {
            if (pairs is { Code: 0, Value: "EOF" })
                return hasEntities ? drawing.Merged() : throw new BrokenFileException("a drawing with a section of entities");
            if (pairs is not { Code: 2 })
                continue;
            switch (pairs.Value)
            {
                case "HEADER": drawing.ReadHeader(pairs); break;
                case "BLOCKS": drawing.ReadBlocks(pairs); break;
                case "ENTITIES":
                    hasEntities = true;
                    drawing.ReadEntities(pairs);
                    break;
                default: SkipSection(pairs); break;
            }
        }

        throw new BrokenFileException("a whole drawing with EOF at its end; this one seems to be cut off");
    }

    /// <summary>A circle and the point or insert at its centre are one place: the circle gives the diameter, the other its own line and attributes.</summary>
    private DxfDrawing Merged()
    {
        var circles = Places.Where(place => place.Kind == "CIRCLE").ToLookup(Spot);
        var marked = new HashSet<(long, long)>();
        foreach (var place in Places.Where(place => place.Kind != "CIRCLE"))
        {
            if (circles[Spot(place)].FirstOrDefault() is not { } circle || !marked.Add(Spot(place)))
                continue;
            place.Radius = circle.Radius;
        }

        MergedCircles = Places.RemoveAll(place => place.Kind == "CIRCLE" && marked.Contains(Spot(place)));
        return this;

        // To the nearest tenth of a millimetre, where the drawing's unit is the metre.
        static (long, long) Spot(DxfEntity place) => ((long)Math.Round(Math.Clamp(place.X, -1e14, 1e14) * 10_000), (long)Math.Round(Math.Clamp(place.Y, -1e14, 1e14) * 10_000));
    }

    private static void SkipSection(DxfPairs pairs)
    {
        while (pairs.Next() && pairs is not { Code: 0, Value: "ENDSEC" })
        {
            // Tables, classes and objects hold no place of a pile.
        }
    }

    private void ReadHeader(DxfPairs pairs)
    {
        var variable = "";
        while (pairs.Next() && pairs is not { Code: 0, Value: "ENDSEC" })
        {
            if (pairs.Code == 9)
                variable = pairs.Value;
            else if (variable == "$INSUNITS" && pairs.Code == 70)
                Unit = pairs.Value switch { "1" => "in", "2" => "ft", "4" => "mm", "5" => "cm", "6" => "m", "21" => "us-ft", "0" => null, var other => $"unit {other} of the format" };
        }
    }

    private void ReadBlocks(DxfPairs pairs)
    {
        Block? block = null;
        var entities = new DxfEntities(pairs);
        while (pairs.Next() && pairs is not { Code: 0, Value: "ENDSEC" })
        {
            if (pairs is { Code: 0, Value: "BLOCK" })
                block = new Block();
            else if (block is not null && pairs.Code == 2 && block.Name is null)
                block.Name = pairs.Value;
            else if (block is not null && pairs.Code is 10 or 20)
                (block!.X, block.Y) = pairs.Code == 10 ? (pairs.Number ?? 0, block.Y) : (block.X, pairs.Number ?? 0);
            else if (block is not null && pairs.Code == 0)
            {
                pairs.GoBack();
                foreach (var entity in entities.Until("ENDBLK"))
                {
                    block.Entities.Add(entity);
                    if (++_inBlocks > MostOfBlocks)
                        throw new BrokenFileException(string.Create(CultureInfo.InvariantCulture, $"a drawing with at most {MostOfBlocks} entities in its blocks"));
                }

                _blocks.TryAdd(block.Name ?? "", block);
                block = null;
            }
        }
    }

    private void ReadEntities(DxfPairs pairs)
    {
        var entities = new DxfEntities(pairs);
        foreach (var entity in entities.Until("ENDSEC"))
            Put(entity, Placing.None, 0);
        PassedOver = entities.PassedOver;
    }

    /// <summary>Puts an entity in place. An insert whose block holds places of its own stands for these; any other is a place itself.</summary>
    private void Put(DxfEntity entity, Placing placing, int depth)
    {
        var placed = placing.Of(entity);
        if (entity.Kind is "TEXT" or "MTEXT")
            Add(Texts, placed);
        else if (entity is { Kind: "INSERT", Attributes.Count: 0 } && _blocks.TryGetValue(entity.Text, out var block) && HoldsPlaces(block))
        {
            if (depth == MostDepth)
                throw new BrokenFileException(string.Create(CultureInfo.InvariantCulture, $"blocks within each other at most {MostDepth} deep; \u201C{ImportProblem.Shorten(entity.Text)}\u201D goes deeper, or holds itself"));
            var within = placing.Then(entity, block.X, block.Y);
            foreach (var part in block.Entities)
                Put(part, within, depth + 1);
        }
        else
            Add(Places, placed);
    }

    private static bool HoldsPlaces(Block block) => block.Entities.Exists(entity => entity.Kind is "POINT" or "CIRCLE" or "INSERT");

    private void Add(List<DxfEntity> list, DxfEntity entity)
    {
        list.Add(entity);
        if (list.Count > _mostPlaces)
            throw new BrokenFileException(string.Create(CultureInfo.InvariantCulture, $"at most {_mostPlaces} points, circles and inserts in one drawing"));
    }

    private sealed class Block
    {
        public string? Name { get; set; }

        public double X { get; set; }

        public double Y { get; set; }

        public List<DxfEntity> Entities { get; } = [];
    }

    /// <summary>From the axes of a block to those of the drawing: x' = a x + b y + e, y' = c x + d y + f.</summary>
    private readonly record struct Placing(double A, double B, double C, double D, double E, double F)
    {
        public static Placing None => new(1, 0, 0, 1, 0, 0);

        public Placing Then(DxfEntity insert, double baseX, double baseY)
        {
            var (sine, cosine) = Math.SinCos(insert.Rotation * Math.PI / 180);
            double a = cosine * insert.ScaleX, b = -sine * insert.ScaleY, c = sine * insert.ScaleX, d = cosine * insert.ScaleY;
            double e = insert.X - (a * baseX) - (b * baseY), f = insert.Y - (c * baseX) - (d * baseY);
            return new Placing(
                (A * a) + (B * c), (A * b) + (B * d), (C * a) + (D * c), (C * b) + (D * d),
                (A * e) + (B * f) + E, (C * e) + (D * f) + F);
        }

        public DxfEntity Of(DxfEntity entity)
        {
            if (this == None)
                return entity;
            var placed = new DxfEntity
            {
                Kind = entity.Kind,
                Line = entity.Line,
                Layer = entity.Layer,
                X = (A * entity.X) + (B * entity.Y) + E,
                Y = (C * entity.X) + (D * entity.Y) + F,
                Z = entity.Z,
                Radius = entity.Radius * Math.Sqrt(Math.Abs((A * D) - (B * C))),
                Text = entity.Text,
                IsFlat = entity.IsFlat,
            };
            placed.Attributes.AddRange(entity.Attributes);
            return placed;
        }
    }
}
