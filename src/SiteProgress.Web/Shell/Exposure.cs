using System.Net;
using SiteProgress.Web.Commands;

namespace SiteProgress.Web.Shell;

/// <summary>Who can reach the server: this machine only, others through TLS, or others through a named proxy.</summary>
public sealed class Exposure
{
    private Exposure(IReadOnlyList<string> addresses, bool loopbackOnly, IReadOnlyList<IPNetwork> proxies)
    {
        Addresses = addresses;
        LoopbackOnly = loopbackOnly;
        Proxies = proxies;
    }

    /// <summary>The addresses the configuration asks the server to listen on.</summary>
    public IReadOnlyList<string> Addresses { get; }

    /// <summary>True when every address is one of this machine alone and no proxy hands requests on.</summary>
    public bool LoopbackOnly { get; }

    /// <summary>The proxies whose forwarded headers are believed; none when the list is empty.</summary>
    public IReadOnlyList<IPNetwork> Proxies { get; }

    /// <summary>Reads it from the configuration.</summary>
    /// <exception cref="CommandFailedException">
    /// The server would listen beyond this machine in clear text without a named proxy, or the proxy is not an address.
    /// </exception>
    public static Exposure Read(IConfiguration configuration)
    {
        List<string> addresses = [.. ListenOn(configuration)];
        List<IPNetwork> proxies = [.. ReadProxies(configuration["SiteProgress:Proxy"])];
        List<string> beyond = [.. addresses.Where(address => !IsLoopback(address))];
        string? open = beyond.FirstOrDefault(address => !address.StartsWith("https://", StringComparison.OrdinalIgnoreCase));
        if (open is not null && proxies.Count == 0)
        {
            throw new CommandFailedException(
                $"The server does not listen on {open} in clear text: use an https address with a certificate, or name the "
                + "reverse proxy that speaks TLS for it in SiteProgress:Proxy (its IP address or network).");
        }

        return new Exposure(addresses, beyond.Count == 0 && proxies.Count == 0, proxies);
    }

    private static IEnumerable<string> ListenOn(IConfiguration configuration)
    {
        List<string> named = [.. configuration.GetSection("Kestrel:Endpoints").GetChildren()
            .Select(endpoint => endpoint["Url"]).OfType<string>()];
        if (named.Count > 0) return named;
        if (configuration["urls"] is { Length: > 0 } urls)
            return urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        List<string> ports = [.. Ports("http"), .. Ports("https")];
        return ports.Count > 0 ? ports : ["http://localhost:5000"];

        // Port settings alone mean every interface of the machine.
        IEnumerable<string> Ports(string scheme) => (configuration[$"{scheme}_ports"] ?? "")
            .Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(port => $"{scheme}://*:{port}");
    }

    private static bool IsLoopback(string address)
    {
        BindingAddress parsed;
        try
        {
            parsed = BindingAddress.Parse(address);
        }
        catch (FormatException)
        {
            throw new CommandFailedException($"\"{address}\" is not an address to listen on; expected is something like http://127.0.0.1:8080.");
        }

        return parsed.IsUnixPipe
            || parsed.Host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
            || (IPAddress.TryParse(parsed.Host.Trim('[', ']'), out IPAddress? host) && IPAddress.IsLoopback(host));
    }

    private static IEnumerable<IPNetwork> ReadProxies(string? setting)
    {
        foreach (string part in (setting ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (IPAddress.TryParse(part, out IPAddress? address))
                yield return new IPNetwork(address, address.GetAddressBytes().Length * 8);
            else if (IPNetwork.TryParse(part, out IPNetwork network))
                yield return network;
            else
                throw new CommandFailedException($"SiteProgress:Proxy says \"{part}\"; expected is an IP address or a network such as 10.0.0.0/24.");
        }
    }
}
