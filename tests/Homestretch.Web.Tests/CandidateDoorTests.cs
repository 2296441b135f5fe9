using Homestretch.Web.Candidates;
using Homestretch.Web.Keeping;

namespace Homestretch.Web.Tests;

/// <summary>The option that opens a door for candidates, the tokens that pass it, and numbers of rows in forms.</summary>
public sealed class CandidateDoorTests
{
    [Fact]
    public void An_address_with_a_port_is_taken()
    {
        Assert.Equal(5081, CandidateDoor.Of("http://192.168.1.5:5081").Address?.Port);
        Assert.Null(CandidateDoor.Of(null).Address);
        Assert.Null(CandidateDoor.Of(" ").Address);
    }

    [Theory]
    [InlineData("https://192.168.1.5:5081")]
    [InlineData("http://192.168.1.5:5081/me")]
    [InlineData("192.168.1.5")]
    [InlineData("ftp://192.168.1.5")]
    [InlineData("5081")]
    public void Anything_else_is_refused_with_what_would_be_accepted(string asked)
    {
        InvalidOperationException refusal = Assert.Throws<InvalidOperationException>(() => CandidateDoor.Of(asked));

        Assert.Contains($"'{asked}' is not", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("such as http://192.168.1.5:5081", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Tokens_differ_and_the_feeds_token_is_another_that_always_is_the_same()
    {
        PersonalToken[] tokens = [.. Enumerable.Range(0, 1000).Select(_ => PersonalToken.Make())];

        Assert.Equal(1000, tokens.Select(t => t.Page).Distinct().Count());
        Assert.All(tokens, t => Assert.Equal(27, t.Page.Length));
        Assert.All(tokens, t => Assert.NotEqual(t.Page, t.Feed));
        Assert.Equal(tokens[0].Feed, new PersonalToken(tokens[0].Page).Feed);
        Assert.Equal(2000, tokens.SelectMany(t => new[] { PersonalToken.Hash(t.Page), PersonalToken.Hash(t.Feed) }).Distinct().Count());
    }

    [Theory]
    [InlineData("", new long[] { })]
    [InlineData("7", new long[] { 7 })]
    [InlineData("3-5,9", new long[] { 3, 4, 5, 9 })]
    public void Numbers_of_rows_come_back(string text, long[] ids)
    {
        Assert.Equal(text, IdList.Write(ids.Reverse()));
        if (ids.Length > 0)
        {
            Assert.Equal(ids, IdList.Read(text));
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("x")]
    [InlineData("5-3")]
    [InlineData("1-2-3")]
    [InlineData("-1")]
    [InlineData("1-9223372036854775807")]
    public void What_is_no_list_of_numbers_is_none(string? text) => Assert.Null(IdList.Read(text));
}
