// The other ways in which a description states a stock's strength or dose; what they come to is
// computed elsewhere.
#include "dosewright/base/text.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

constexpr const char* kForms =
    "write 500 mL treats 5000 US gal, 1 mL per 5 US gal, 2 g of PRODUCT per 10 L, or "
    "4 tbsp of PRODUCT in 1.5 L";

// "4 tbsp of soda", "in", "1.5 L".
struct Parts {
  std::string amount;
  std::string product;
  std::string word;
  std::string water;
};

std::optional<Parts> taken_apart(const std::string& text) {
  for (const char* word : {" treats ", " per ", " in "}) {
    const std::size_t at = text.find(word);
    if (at == std::string::npos) continue;
    Parts out;
    out.word = trimmed(word);
    out.amount = trimmed(text.substr(0, at));
    out.water = trimmed(text.substr(at + std::string(word).size()));
    const std::size_t of = out.amount.find(" of ");
    if (of != std::string::npos) {
      out.product = trimmed(out.amount.substr(of + 4));
      out.amount = trimmed(out.amount.substr(0, of));
    }
    return out;
  }
  return std::nullopt;
}

class ClaimReader {
 public:
  ClaimReader(const MapReader& map, const Entry& entry, const Stock& stock, const Room& room)
      : map_(map), entry_(entry), stock_(stock), room_(room) {}

  std::optional<Claim> read() {
    const std::string path = map_.path_of(entry_.key);
    if (!map_.is_scalar(entry_.value, path)) return std::nullopt;
    claim_.name = entry_.key;
    claim_.origin = {entry_.value.place, path};
    claim_.text = trimmed(entry_.value.text);
    const auto parts = taken_apart(claim_.text);
    if (!parts) return refused("no claim about strength or dose: " + quoted(claim_.text), kForms);
    claim_.kind = parts->word == "in" ? Claim::Kind::strength : Claim::Kind::dose;
    claim_.product = parts->product;
    if (!read_product() || !read_amount(parts->amount) || !read_water(parts->water))
      return std::nullopt;
    return claim_;
  }

 private:
  std::optional<Claim> refused(const std::string& message, const std::string& hint) const {
    map_.error(claim_.origin.place, claim_.origin.path, message, hint);
    return std::nullopt;
  }

  bool read_product() {
    if (claim_.product.empty()) return true;
    std::vector<std::string> ids;
    for (const Ingredient& ingredient : stock_.recipe) ids.push_back(ingredient.product);
    return refer(map_, entry_.value, claim_.origin.path, "product of this recipe", claim_.product,
                 ids);
  }

  bool read_amount(const std::string& text) {
    const auto mass = parse_mass(text);
    if (const auto* found = std::get_if<Mass>(&mass)) {
      claim_.amount = *found;
      return in_grams(*found) > 0 && weighs_a_product();
    }
    Node node = entry_.value;
    node.text = text;
    const auto volume = map_.parsed<Volume>(node, claim_.origin.path, volume_in(map_.checking()));
    if (!volume) return false;
    claim_.amount = *volume;
    if (in_millilitres(*volume) <= 0) {
      (void)refused("an amount of nothing", kForms);
      return false;
    }
    return claim_.product.empty() ? is_of_a_liquid() : is_scooped();
  }

  // Grams are of a product, and of which must be clear.
  bool weighs_a_product() {
    if (!claim_.product.empty()) return true;
    if (stock_.recipe.size() == 1) {
      claim_.product = stock_.recipe.front().product;
      return true;
    }
    (void)refused("grams of which product?", "write 2 g of PRODUCT per 10 L");
    return false;
  }

  bool is_of_a_liquid() {
    if (!stock_.dry && claim_.kind == Claim::Kind::dose) return true;
    (void)refused(stock_.dry ? "a powder by volume: its scoops must name it"
                             : "of which product does this volume go into the water?",
                  "write 4 tbsp of PRODUCT");
    return false;
  }

  bool is_scooped() {
    const Product& product = *find(room_.products, claim_.product);
    const bool known = product.form == Product::Form::powder ? product.bulk_density.has_value()
                                                             : product.density.has_value();
    if (known) return true;
    (void)refused(
        "what this volume of " + quoted(product.id) + " weighs is not known",
        "add " + std::string(product.form == Product::Form::powder ? "bulk density" : "density") +
            ": to products." + product.id + ", or write grams");
    return false;
  }

  bool read_water(const std::string& text) {
    Node node = entry_.value;
    node.text = text;
    const auto water = map_.parsed<Volume>(node, claim_.origin.path, volume_in(map_.checking()));
    if (!water) return false;
    claim_.water = *water;
    if (in_millilitres(*water) <= 0) {
      (void)refused("water of nothing", kForms);
      return false;
    }
    // More stock than water: nobody doses so.
    const auto* amount = std::get_if<Volume>(&claim_.amount);
    const bool of_stock = amount != nullptr && claim_.kind == Claim::Kind::dose;
    if (of_stock && claim_.product.empty() && *amount > *water) {
      (void)refused("more of the stock than of the water: is it the wrong way round?",
                    "write the stock first, such as 5 mL per 20 US gal");
      return false;
    }
    return true;
  }

  const MapReader& map_;
  const Entry& entry_;
  const Stock& stock_;
  const Room& room_;
  Claim claim_;
};

}  // namespace

std::vector<Claim> read_claims(const MapReader& stock_map, const Stock& stock, const Room& room) {
  std::vector<Claim> out;
  const Node* node = stock_map.find("claims");
  if (node == nullptr) return out;
  // Every key is a name of the user's own.
  std::vector<std::string> names;
  for (const Entry& entry : node->entries) names.push_back(entry.key);
  const MapReader map(stock_map.checking(), *node, stock_map.path_of("claims"), names);
  if (!map.is_map()) return out;
  for (const Entry& entry : node->entries) {
    if (auto claim = ClaimReader(map, entry, stock, room).read()) out.push_back(std::move(*claim));
  }
  return out;
}

}  // namespace dosewright
