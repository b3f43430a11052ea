using System.Text.RegularExpressions;
using Fettle.Testing;
using Microsoft.Extensions.Configuration;
using Npgsql;
using YamlDotNet.Core;
using YamlDotNet.Serialization;

namespace Fettle.Web.Tests.Packaging;

/// <summary>
/// Few of us build the images every day; these tests keep <c>docker-compose.yml</c> and the Dockerfile from naming
/// what is no longer there.
/// </summary>
public sealed partial class ComposeFileTests
{
    private readonly Compose _compose = new DeserializerBuilder().IgnoreUnmatchedProperties().Build()
        .Deserialize<Compose>(new MergingParser(new Parser(new StringReader(Repository.Read("docker-compose.yml")))));

    [Fact]
    public void It_has_a_database_a_mail_server_and_the_portal_in_both_roles()
    {
        Assert.Equal(["db", "mail", "web", "worker"], _compose.Services.Keys.Order());
        Assert.Equal(["--role", "web"], _compose.Services["web"].Command);
        Assert.Equal(["--role", "worker"], _compose.Services["worker"].Command);
    }

    [Fact]
    public void What_is_built_is_built_from_files_that_exist()
    {
        var builds = _compose.Services.Values.Select(service => service.Build).OfType<Build>().ToList();

        Assert.Equal(2, builds.Count);
        Assert.All(builds, build => Assert.True(File.Exists(Path.Combine(Repository.Root, build.Context, build.Dockerfile))));
    }

    [Fact]
    public void Every_service_is_waited_for_by_a_check_of_its_health()
    {
        Assert.All(_compose.Services, service => Assert.NotEmpty(service.Value.Healthcheck!.Test));
        var waits = _compose.Services.Values.SelectMany(service => service.DependsOn).ToList();
        Assert.NotEmpty(waits);
        Assert.All(waits, wait => Assert.Contains(wait.Key, _compose.Services.Keys));
        Assert.All(waits, wait => Assert.Equal("service_healthy", wait.Value.Condition));
    }

    [Fact]
    public void Every_volume_is_declared()
    {
        var named = _compose.Services.Values.SelectMany(service => service.Volumes).Select(volume => volume.Split(':')[0]).ToList();

        Assert.NotEmpty(named);
        Assert.Equal(named.Order(), _compose.Volumes.Keys.Order());
    }

    [Fact]
    public void Every_port_is_published_to_this_machine_alone()
    {
        var ports = _compose.Services.Values.SelectMany(service => service.Ports).ToList();

        Assert.NotEmpty(ports);
        Assert.All(ports, port => Assert.StartsWith("127.0.0.1:", port, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("web")]
    [InlineData("worker")]
    public void The_portal_is_told_of_the_very_database_and_mail_server_that_are_started(string role)
    {
        var settings = _compose.Services[role].Environment;
        var connection = new NpgsqlConnectionStringBuilder(settings["ConnectionStrings__Fettle"]);
        var database = _compose.Services[connection.Host!].Environment;

        Assert.Equal(database["POSTGRES_DB"], connection.Database);
        Assert.Equal(database["POSTGRES_USER"], connection.Username);
        Assert.Equal(database["POSTGRES_PASSWORD"], connection.Password);
        Assert.Contains(settings["Fettle__Smtp__Host"], _compose.Services.Keys);
    }

    [Theory]
    [InlineData("web")]
    [InlineData("worker")]
    public void Every_setting_is_one_that_the_portal_reads(string role)
    {
        var environment = _compose.Services[role].Environment.Select(
            variable => KeyValuePair.Create(variable.Key.Replace("__", ":", StringComparison.Ordinal), (string?)variable.Value));
        var configuration = new ConfigurationBuilder().AddInMemoryCollection(environment).Build();

        var settings = configuration.GetSection("Fettle").Get<Settings>(binder => binder.ErrorOnUnknownConfiguration = true)!;

        Assert.Equal("mail", settings.Smtp.Host);
        Assert.True(settings.Database.Migrate);
        Assert.All(configuration.GetChildren(), section => Assert.Contains(section.Key, new[] { "Fettle", "ConnectionStrings" }));
    }

    [Fact]
    public void The_dockerfile_copies_only_files_and_stages_that_exist()
    {
        var lines = Repository.Read("src/Fettle.Web/Dockerfile").Split('\n');
        var stages = lines.Select(line => Stage().Match(line)).Where(match => match.Success).Select(match => match.Groups[1].Value).ToList();
        var copies = lines.Where(line => line.StartsWith("COPY ", StringComparison.Ordinal)).ToList();

        Assert.NotEmpty(copies);
        foreach (var copy in copies)
        {
            var words = copy.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1..^1];
            if (words[0].StartsWith("--from=", StringComparison.Ordinal))
                Assert.Contains(words[0]["--from=".Length..], stages);
            else
                Assert.All(words, word => Assert.True(Path.Exists(Repository.PathTo(word)), $"{copy}: no {word}"));
        }
    }

    [Fact]
    public void The_dockerfile_builds_and_runs_on_the_framework_that_the_code_targets_and_starts_the_portal()
    {
        var dockerfile = Repository.Read("src/Fettle.Web/Dockerfile");
        var framework = TargetFramework().Match(Repository.Read("Directory.Build.props")).Groups[1].Value;

        Assert.Contains($"dotnet/sdk:{framework} ", dockerfile, StringComparison.Ordinal);
        Assert.Contains($"dotnet/aspnet:{framework}\n", dockerfile, StringComparison.Ordinal);
        Assert.Contains($"ENTRYPOINT [\"dotnet\", \"{typeof(Settings).Assembly.GetName().Name}.dll\"]", dockerfile, StringComparison.Ordinal);
        Assert.Contains("USER $APP_UID", dockerfile, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"^FROM \S+ AS (\S+)")]
    private static partial Regex Stage();

    [GeneratedRegex(@"<TargetFramework>net([\d.]+)</TargetFramework>")]
    private static partial Regex TargetFramework();

    private sealed class Compose
    {
        // The shared parts are read so that what refers to them is understood.
        [YamlMember(Alias = "x-portal")]
        public Service? Portal { get; init; }

        [YamlMember(Alias = "x-settings")]
        public Dictionary<string, string> Settings { get; init; } = [];

        [YamlMember(Alias = "x-health")]
        public Health? HealthOfPortal { get; init; }

        [YamlMember(Alias = "services")]
        public Dictionary<string, Service> Services { get; init; } = [];

        [YamlMember(Alias = "volumes")]
        public Dictionary<string, object?> Volumes { get; init; } = [];
    }

    private sealed class Service
    {
        [YamlMember(Alias = "build")]
        public Build? Build { get; init; }

        [YamlMember(Alias = "command")]
        public List<string> Command { get; init; } = [];

        [YamlMember(Alias = "environment")]
        public Dictionary<string, string> Environment { get; init; } = [];

        [YamlMember(Alias = "depends_on")]
        public Dictionary<string, Wait> DependsOn { get; init; } = [];

        [YamlMember(Alias = "volumes")]
        public List<string> Volumes { get; init; } = [];

        [YamlMember(Alias = "ports")]
        public List<string> Ports { get; init; } = [];

        [YamlMember(Alias = "healthcheck")]
        public Health? Healthcheck { get; init; }
    }

    private sealed class Build
    {
        [YamlMember(Alias = "context")]
        public string Context { get; init; } = "";

        [YamlMember(Alias = "dockerfile")]
        public string Dockerfile { get; init; } = "";
    }

    private sealed class Wait
    {
        [YamlMember(Alias = "condition")]
        public string Condition { get; init; } = "";
    }

    private sealed class Health
    {
        [YamlMember(Alias = "test")]
        public List<string> Test { get; init; } = [];
    }
}
