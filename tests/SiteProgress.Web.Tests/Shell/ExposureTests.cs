using Microsoft.Extensions.Configuration;
using Shouldly;
using SiteProgress.Web.Commands;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Where the server agrees to listen.</summary>
public sealed class ExposureTests
{
    [Theory]
    [InlineData("http://127.0.0.1:8080")]
    [InlineData("http://localhost:8080")]
    [InlineData("http://[::1]:8080")]
    [InlineData("http://127.0.0.2:8080;http://localhost:0")]
    [InlineData("http://unix:/run/site.sock")]
    public void This_machine_alone_is_let_be(string urls)
        => Exposure.Read(With(("urls", urls))).LoopbackOnly.ShouldBeTrue();

    [Theory]
    [InlineData("http://0.0.0.0:8080")]
    [InlineData("http://[::]:8080")]
    [InlineData("http://*:8080")]
    [InlineData("http://+:8080")]
    [InlineData("http://10.1.2.3:8080")]
    [InlineData("http://site.example.org")]
    [InlineData("https://0.0.0.0:8443;http://0.0.0.0:8080")]
    [InlineData("http://localhost.example.org:80")]
    public void Clear_text_beyond_this_machine_is_refused_in_one_sentence(string urls)
    {
        CommandFailedException refused = Should.Throw<CommandFailedException>(() => Exposure.Read(With(("urls", urls))));
        refused.Message.ShouldContain("in clear text");
        refused.Message.ShouldContain("SiteProgress:Proxy");
        refused.Message.ShouldNotContain("\n");
    }

    [Fact]
    public void A_port_alone_means_every_interface_and_is_refused()
        => Should.Throw<CommandFailedException>(() => Exposure.Read(With(("http_ports", "8080")))).Message.ShouldContain("http://*:8080");

    [Fact]
    public void An_endpoint_of_the_configuration_is_looked_at_too()
        => Should.Throw<CommandFailedException>(() => Exposure.Read(With(
            ("urls", "http://127.0.0.1:80"), ("Kestrel:Endpoints:Open:Url", "http://0.0.0.0:8080"))));

    [Fact]
    public void Tls_beyond_this_machine_is_let_be()
        => Exposure.Read(With(("urls", "https://0.0.0.0:8443"))).LoopbackOnly.ShouldBeFalse();

    [Theory]
    [InlineData("10.0.0.5", "10.0.0.5", "10.0.0.6")]
    [InlineData("10.0.0.0/24", "10.0.0.77", "10.0.1.1")]
    [InlineData("192.0.2.1, fd00::1", "fd00::1", "fd00::2")]
    public void A_named_proxy_may_speak_tls_for_the_server_and_is_believed_alone(string setting, string believed, string not)
    {
        Exposure exposure = Exposure.Read(With(("urls", "http://0.0.0.0:8080"), ("SiteProgress:Proxy", setting)));
        exposure.LoopbackOnly.ShouldBeFalse();
        exposure.Proxies.Any(proxy => proxy.Contains(System.Net.IPAddress.Parse(believed))).ShouldBeTrue();
        exposure.Proxies.Any(proxy => proxy.Contains(System.Net.IPAddress.Parse(not))).ShouldBeFalse();
    }

    [Theory]
    [InlineData("my-proxy")]
    [InlineData("10.0.0.0/99")]
    public void A_proxy_that_is_no_address_is_told(string setting)
        => Should.Throw<CommandFailedException>(() => Exposure.Read(With(("SiteProgress:Proxy", setting)))).Message.ShouldContain(setting);

    [Fact]
    public void A_loopback_server_behind_a_proxy_counts_as_reachable_by_others()
        => Exposure.Read(With(("urls", "http://127.0.0.1:8080"), ("SiteProgress:Proxy", "127.0.0.1"))).LoopbackOnly.ShouldBeFalse();

    private static IConfiguration With(params (string Key, string Value)[] settings)
        => new ConfigurationBuilder().AddInMemoryCollection(settings.Select(s => KeyValuePair.Create(s.Key, (string?)s.Value))).Build();
}
