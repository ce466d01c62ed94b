using System.Globalization;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.Drawings;

/// <summary>A point, circle, block insert or text of a drawing, in the plane of the drawing.</summary>
internal sealed class DxfEntity
{
    public required string Kind { get; init; }

    public required long Line { get; init; }

    public string Layer { get; set; } = "0";

    public double X { get; set; }

    public double Y { get; set; }

    public double Z { get; set; }

    /// <summary>Radius of a circle, in units of the drawing.</summary>
    public double Radius { get; set; }

    /// <summary>Text, or name of the inserted block.</summary>
    public string Text { get; set; } = "";

    public double ScaleX { get; set; } = 1;

    public double ScaleY { get; set; } = 1;

    /// <summary>Rotation, degrees anticlockwise.</summary>
    public double Rotation { get; set; }

    /// <summary>True where the plane of the entity is that of the drawing, seen from above or below.</summary>
    public bool IsFlat { get; set; } = true;

    /// <summary>Values of attributes by their tag.</summary>
    public List<(string Tag, string Value)> Attributes { get; } = [];
}

/// <summary>Reads the entities of a section of a drawing that a layout of piles is made of; all others are passed over and counted.</summary>
/// <remarks>
/// A library was considered; those at hand hold the whole drawing in memory and name no line. Group codes as the format's
/// reference has them: 0 kind, 8 layer, 10, 20, 30 position, 11, 21 second alignment point of a text, 40 radius, 41 and 42
/// scales and 50 rotation of an insert, 66 attributes follow, 1 text, 2 name or tag, 210 to 230 direction of the plane.
/// </remarks>
/// <param name="pairs">The drawing.</param>
internal sealed class DxfEntities(DxfPairs pairs)
{
    private readonly Dictionary<string, int> _passedOver = [];

    /// <summary>Kinds that were passed over, with how many of each.</summary>
    public IReadOnlyDictionary<string, int> PassedOver => _passedOver;

    /// <summary>Entities up to a word that ends them, such as ENDSEC; the pair of that word was read.</summary>
    /// <param name="end">Words that end the entities.</param>
    public IEnumerable<DxfEntity> Until(params string[] end)
    {
        while (pairs.Next())
        {
            if (pairs.Code != 0)
                continue;
            if (end.Contains(pairs.Value))
                yield break;
            if (pairs.Value is not ("POINT" or "CIRCLE" or "INSERT" or "TEXT" or "MTEXT"))
            {
                if (pairs.Value is not ("SEQEND" or "ATTRIB" or "VERTEX") && _passedOver.Count < 100)
                    _passedOver[pairs.Value] = _passedOver.GetValueOrDefault(pairs.Value) + 1;
                continue;
            }

            yield return Read();
        }

        throw new BrokenFileException("a whole drawing; it ends within a section and seems to be cut off");
    }

    private DxfEntity Read()
    {
        var entity = new DxfEntity { Kind = pairs.Value, Line = pairs.Line };
        var reading = new Reading(entity);
        while (pairs.Next() && pairs.Code != 0)
            reading.Take(pairs);
        pairs.GoBack();
        reading.Finish();
        if (reading.AttributesFollow)
            ReadAttributes(entity);
        return entity;
    }

    private void ReadAttributes(DxfEntity insert)
    {
        string tag = "", value = "";
        while (pairs.Next())
        {
            if (pairs.Code == 0)
            {
                if (tag.Length > 0)
                    insert.Attributes.Add((tag, value));
                (tag, value) = ("", "");
                if (pairs.Value == "ATTRIB" && insert.Attributes.Count < 200)
                    continue;
                if (pairs.Value != "SEQEND")
                    pairs.GoBack();
                return;
            }

            if (pairs.Code == 2)
                tag = pairs.Value;
            else if (pairs.Code == 1)
                value = pairs.Value;
        }
    }

    private sealed class Reading(DxfEntity entity)
    {
        private (double X, double Y, double Z) _direction = (0, 0, 1);
        private (double? X, double? Y) _second;
        private (int Across, int Up) _alignment;

        public bool AttributesFollow { get; private set; }

        public void Take(DxfPairs pairs)
        {
            switch (pairs.Code)
            {
                case 8: entity.Layer = pairs.Value; break;
                case 1: entity.Text = entity.Kind == "INSERT" ? entity.Text : entity.Text + pairs.Value; break;
                case 3 when entity.Kind == "MTEXT": entity.Text += pairs.Value; break;
                case 2 when entity.Kind == "INSERT": entity.Text = pairs.Value; break;
                case 66: AttributesFollow = pairs.Value == "1" && entity.Kind == "INSERT"; break;
                case 72 when entity.Kind == "TEXT": _alignment.Across = Whole(pairs); break;
                case 73 when entity.Kind == "TEXT": _alignment.Up = Whole(pairs); break;
                case 10 or 20 or 30 or 11 or 21 or 40 or 41 or 42 or 50 or 210 or 220 or 230: TakeNumber(pairs); break;
                default: break;
            }
        }

        public void Finish()
        {
            // A text that is not aligned left on its base line stands where its second point is.
            if (_alignment != (0, 0) && _second is ({ } x, { } y))
                (entity.X, entity.Y) = (x, y);
            entity.IsFlat = Math.Abs(_direction.X) < 1e-9 && Math.Abs(_direction.Y) < 1e-9;
            // Seen from below, the first axis of an entity points the other way (arbitrary axis algorithm of the reference).
            // Points are always given in the drawing's own axes.
            if (_direction.Z < 0 && entity.Kind != "POINT")
                entity.X = -entity.X;
        }

        private void TakeNumber(DxfPairs pairs)
        {
            if (pairs.Number is not { } value)
            {
                throw new BrokenFileException(string.Create(
                    CultureInfo.InvariantCulture, $"a number on line {pairs.Line + 1} of the drawing; it has \u201C{ImportProblem.Shorten(pairs.Value)}\u201D"));
            }

            switch (pairs.Code)
            {
                case 10: entity.X = value; break;
                case 20: entity.Y = value; break;
                case 30: entity.Z = value; break;
                case 11: _second.X = value; break;
                case 21: _second.Y = value; break;
                case 40 when entity.Kind == "CIRCLE": entity.Radius = value; break;
                case 41 when entity.Kind == "INSERT": entity.ScaleX = value; break;
                case 42 when entity.Kind == "INSERT": entity.ScaleY = value; break;
                case 50 when entity.Kind == "INSERT": entity.Rotation = value; break;
                case 210: _direction.X = value; break;
                case 220: _direction.Y = value; break;
                case 230: _direction.Z = value; break;
                default: break;
            }
        }

        private static int Whole(DxfPairs pairs) => (int)Math.Clamp(pairs.Number ?? 0, 0, 10);
    }
}
