namespace Homestretch.Files.Documents;

/// <summary>What an item bank was good for.</summary>
/// <param name="Items">Items in the bank.</param>
/// <param name="CalibratedAnswers">The person's answers that counted with their own item's curve.</param>
/// <param name="Answers">All answers that the standing rests on.</param>
public sealed record BankUseFields(int Items, int CalibratedAnswers, int Answers);
