// A batch of stacks in lanes: the one place where a step of the stack is carried out.
#pragma once
#include <array>
#include <vector>

#include "base/contract.hpp"
#include "physics/canopy.hpp"
#include "simulation/audit.hpp"
#include "simulation/column.hpp"
#include "simulation/node_balance.hpp"
#include "simulation/scheme.hpp"
#include "simulation/stack_batch.hpp"
#include "simulation/stack_lane.hpp"

namespace houseleek::simulation {

template <class L, bool has_canopy, bool has_net, bool has_module>
class StackBatchOf final : public StackBatch {
  using N = Nodes<has_canopy, has_net, has_module>;
  using System = NodeSystem<L, N>;
  static constexpr int width = numerics::lane_width<L>;

 public:
  StackBatchOf(std::span<const Stack* const> stacks, std::span<const StackMeshes* const> meshes, double pressure_pa)
      : n_stacks_(static_cast<int>(stacks.size())),
        module_(has_module ? static_cast<int>(meshes[0]->module.slices.size()) : 1),
        deck_(static_cast<int>(meshes[0]->deck.slices.size())) {
    expects(n_stacks_ >= 1 && n_stacks_ <= width, "between one stack and as many as there are lanes");
    for (int i = 0; i < width; ++i) {
      const std::size_t own = static_cast<std::size_t>(i < n_stacks_ ? i : n_stacks_ - 1);
      lanes_.push_back(make_stack_lane(*stacks[own], *meshes[own], pressure_pa));
    }
    for (int i = 0; i < width; ++i) set_constants(i, lanes_[static_cast<std::size_t>(i)]);
    constants_.under = stacks[0]->under;
    sideways_kept_.assign(static_cast<std::size_t>(deck_.n), L(0.0));
  }

  [[nodiscard]] int n_stacks() const override { return n_stacks_; }

  void save() override {
    saved_lanes_ = lanes_;
    saved_module_c_ = module_.temperature_c;
    saved_deck_c_ = deck_.temperature_c;
    saved_nodes_ = nodes_;
    saved_last_stage_ = last_stage_;
    saved_foliage_c_ = foliage_c_;
    saved_last_rate_ = last_rate_;
    saved_n_capped_ = n_capped_;
    saved_end_capacity_j_per_m2_k_ = end_capacity_j_per_m2_k_;
  }
  void restore() override {
    lanes_ = saved_lanes_;
    module_.temperature_c = saved_module_c_;
    deck_.temperature_c = saved_deck_c_;
    nodes_ = saved_nodes_;
    last_stage_ = saved_last_stage_;
    foliage_c_ = saved_foliage_c_;
    last_rate_ = saved_last_rate_;
    n_capped_ = saved_n_capped_;
    end_capacity_j_per_m2_k_ = saved_end_capacity_j_per_m2_k_;
    current_ = 0;
    hour_error_k_ = 0.0;
  }

  bool begin_hour(int hour_of_year) override {
    bool is_watering = false;
    for (StackLane& lane : lanes_) {
      lane.begin_hour(hour_of_year);
      is_watering = is_watering || lane.planned_watering_kg_per_m2_s > 0.0;
      lane.sums = {};
      lane.extremes = {};
    }
    hour_error_k_ = 0.0;
    return is_watering;
  }

  void begin_step(double step_s, double seconds_into_hour, const climate::Forcing& at_end,
                  bool is_after_jump) override {
    step_s_ = step_s;
    is_after_jump_ = is_after_jump;
    if (step_s != factored_for_s_) {
      factor_column(deck_, L(scheme::gamma * step_s));
      factored_for_s_ = step_s;
    }
    for (StackLane& lane : lanes_) lane.begin_step(step_s, seconds_into_hour, at_end, is_after_jump);
  }

  void prepare_stage(int stage, const climate::Forcing& forcing, std::span<const double> sideways_w_per_m2,
                     FilmMemo& films) override {
    const L gamma_step_s(scheme::gamma * step_s_);
    NodeStage<L>& s = stage_[stage];
    for (StackLane& lane : lanes_) lane.prepare_stage(stage, forcing, films);
    put_stage(s, stage);
    s.foliage_rate_w_per_m2_k = constants_.leaf_capacity_j_per_m2_k / gamma_step_s;
    const L ratio((1.0 - scheme::gamma) / scheme::gamma);
    if constexpr (has_canopy) {
      s.foliage_known_c = stage == 0 ? foliage_c_ : foliage_c_ + ratio * (stage_nodes_[0][N::foliage] - foliage_c_);
    }
    if constexpr (has_module) {
      set_module_properties(stage);
      for (int k = 0; k < module_.n; ++k) {
        module_.known_c[k] =
            stage == 0 ? module_.temperature_c[k]
                       : module_.temperature_c[k] +
                             ratio * (first_module_c_[static_cast<std::size_t>(k)] - module_.temperature_c[k]);
      }
      factor_column(module_, gamma_step_s);
      const int last = module_.n - 1;
      s.module_top_w_per_m2_k = module_.between_w_per_m2_k[0];
      s.module_bottom_w_per_m2_k = module_.between_w_per_m2_k[module_.n];
      s.module_first = module_.particular[0];
      s.module_first_by_top = module_.by_top[0];
      s.module_first_by_bottom = module_.by_bottom[0];
      s.module_last = module_.particular[last];
      s.module_last_by_top = module_.by_top[last];
      s.module_last_by_bottom = module_.by_bottom[last];
    }
    const std::size_t n_deck = static_cast<std::size_t>(deck_.n);
    for (int k = 0; k < deck_.n; ++k) {
      const L sideways = sideways_w_per_m2.empty() ? L(0.0) : numerics::from_lanes<L>([&](int i) {
        return sideways_w_per_m2[stack_of(i) * n_deck + static_cast<std::size_t>(k)];
      });
      const L moved = sideways * deck_inverse_k_m2_per_j_[static_cast<std::size_t>(k)] * L(step_s_);
      const L implicit =
          stage == 0
              ? L(0.0)
              : ratio * (first_deck_c_[static_cast<std::size_t>(k)] - first_deck_known_c_[static_cast<std::size_t>(k)]);
      deck_.known_c[k] = deck_.temperature_c[k] + implicit + moved;
      if (stage == 1) sideways_kept_[static_cast<std::size_t>(k)] = sideways;  // its weights are the whole step's
    }
    if (stage == 0) first_deck_known_c_ = deck_.known_c;
    solve_particular(deck_);
    const int last = deck_.n - 1;
    s.deck_top_w_per_m2_k = deck_.between_w_per_m2_k[0];
    s.deck_bottom_w_per_m2_k = deck_.between_w_per_m2_k[deck_.n];
    s.deck_first = deck_.particular[0];
    s.deck_first_by_top = deck_.by_top[0];
    s.deck_first_by_bottom = deck_.by_bottom[0];
    s.deck_last = deck_.particular[last];
    s.deck_last_by_top = deck_.by_top[last];
    s.deck_last_by_bottom = deck_.by_bottom[last];
  }

  [[nodiscard]] double steepest_w_per_m2_k() const override {
    const NodeStage<L>& s = stage_[current_];
    L steepest = numerics::max(s.deck_top_w_per_m2_k, s.deck_bottom_w_per_m2_k);
    steepest = numerics::max(steepest, numerics::cbrt(s.forced_cubed));
    steepest = numerics::max(steepest, constants_.is_inside_fixed * constants_.inside_fixed_w_per_m2_k);
    if constexpr (has_canopy) steepest = numerics::max(steepest, s.foliage_rate_w_per_m2_k);
    if constexpr (has_module) {
      steepest = numerics::max(steepest, numerics::max(s.module_top_w_per_m2_k, s.module_bottom_w_per_m2_k));
      if (constants_.under == Under::contact)
        steepest = numerics::max(steepest, L(1.0) / constants_.contact_resistance_m2_k_per_w);
    }
    double result = 0.0;
    for (int i = 0; i < n_stacks_; ++i) result = larger(lane_at(steepest, i), result);
    return result;
  }

  double evaluate(std::span<const RoomTemperatures> rooms, std::span<CeilingReport> reports) override {
    spread(rooms, room_air_c_, room_surface_c_);
    evaluate_nodes<L, has_canopy, has_net, has_module>(constants_, stage_[current_], nodes_.data(), room_air_c_,
                                                       room_surface_c_, system_);
    L largest(0.0), sum(0.0);
    for (const L& r : system_.residual_w_per_m2) {
      const L size = numerics::abs(r);
      largest = numerics::max(size, largest);
      sum += size;
    }
    double worst = 0.0;
    for (int i = 0; i < n_stacks_; ++i) {
      const double r = lane_at(largest, i);
      if (r > worst) worst = r;
      // A residual that is not a number hides from comparisons, but not from the sum.
      if (!(lane_at(sum, i) <= 1.0e300)) worst = 1.0e300;
      reports[static_cast<std::size_t>(i)].convective_w_per_m2 = lane_at(system_.to_room.convective_w_per_m2, i);
      reports[static_cast<std::size_t>(i)].radiative_w_per_m2 = lane_at(system_.to_room.radiative_w_per_m2, i);
    }
    return worst;
  }

  void eliminate(std::span<CeilingReport> reports) override {
    // No pivoting: every row is dominated by its own node. The ceiling's row stays open for its room.
    for (L& r : system_.residual_w_per_m2) r = -r;
    numerics::factor_all_but_last(system_.slope);
    ceiling_ = numerics::reduce_to_last(system_.slope, system_.residual_w_per_m2);
    for (int i = 0; i < n_stacks_; ++i) {
      CeilingReport& report = reports[static_cast<std::size_t>(i)];
      report.slope_w_per_m2_k = lane_at(system_.to_room.slope_w_per_m2_k, i);
      report.radiative_w_per_m2_k = lane_at(constants_.ceiling_radiative_w_per_m2_k, i);
      report.reduced_slope_w_per_m2_k = lane_at(ceiling_.pivot, i);
      report.reduced_residual_w_per_m2 = -lane_at(ceiling_.right, i);
    }
  }

  [[nodiscard]] bool find_change(std::span<const RoomTemperatures> changes) override {
    L air_k(0.0), surface_k(0.0);
    spread(changes, air_k, surface_k);
    const L ceiling_k = (ceiling_.right - system_.to_room.slope_w_per_m2_k * air_k -
                         constants_.ceiling_radiative_w_per_m2_k * surface_k) /
                        ceiling_.pivot;
    change_ = system_.residual_w_per_m2;
    numerics::substitute_from_last(system_.slope, ceiling_k, change_);
    // A Newton step is kept to 15 K, which never binds near the solution; it keeps iterates where the surface functions hold.
    L largest_k(0.0);
    for (L& k : change_) {
      largest_k = numerics::max(largest_k, numerics::abs(k));
      k = numerics::min(numerics::max(k, L(-15.0)), L(15.0));
    }
    bool is_cut = false;
    for (int i = 0; i < n_stacks_; ++i) is_cut = is_cut || lane_at(largest_k, i) > 15.0;
    return is_cut;
  }

  void move(double share) override {
    for (int a = 0; a < N::count; ++a) nodes_[a] += L(share) * change_[a];
  }

  void finish_stage(int stage, std::span<const RoomTemperatures> rooms) override {
    spread(rooms, stage_room_air_c_[stage], stage_room_surface_c_[stage]);
    stage_nodes_[stage] = nodes_;
    if constexpr (has_module) {
      const L top_c = nodes_[N::surface];
      const L bottom_c = nodes_[N::bottom];
      place_slices(module_, top_c, bottom_c);
      for (int face = 0; face <= module_.n; ++face)
        conducted_[stage][static_cast<std::size_t>(face)] = conducted(module_, face, top_c, bottom_c);
      if (stage == 0) first_module_c_ = module_.stage_c;
    }
    place_slices(deck_, nodes_[N::membrane], nodes_[N::ceiling]);
    if (stage == 0) first_deck_c_ = deck_.stage_c;
    for (int i = 0; i < width; ++i) {
      lanes_[static_cast<std::size_t>(i)].note_evaporation(stage, lane_at(system_.leaf_vapour_w_per_m2, i),
                                                           lane_at(system_.ground_vapour_w_per_m2, i));
      if (i < n_stacks_) {
        n_capped_ += lane_at(system_.leaf_vapour_w_per_m2, i) >= lane_at(stage_[stage].leaf_cap_w_per_m2, i) ||
                             lane_at(system_.ground_vapour_w_per_m2, i) >= lane_at(stage_[stage].ground_cap_w_per_m2, i)
                         ? 1
                         : 0;
      }
    }
    current_ = stage == 0 ? 1 : 0;
    // The next guess goes on in a straight line; Newton's method does the rest.
    const double ahead = stage == 0 ? (1.0 - scheme::gamma) / scheme::gamma : scheme::gamma / (1.0 - scheme::gamma);
    const std::array<L, N::count> solved = nodes_;
    if (has_last_stage_ && !(is_after_jump_ && stage == 0)) {
      for (int a = 0; a < N::count; ++a)
        nodes_[a] += L(ahead) * numerics::min(numerics::max(solved[a] - last_stage_[a], L(-5.0)), L(5.0));
    }
    last_stage_ = solved;
    has_last_stage_ = true;
  }

  bool finish_step(double error_bound_k, bool is_judged) override;
  [[nodiscard]] double error_estimate_k() const override { return hour_error_k_; }
  void keep_hour(std::span<results::StackYear> columns) override;
  void keep_year(std::span<results::StackYear> columns) override {
    for (int i = 0; i < n_stacks_; ++i) {
      const StackLane& lane = lanes_[static_cast<std::size_t>(i)];
      auto& out = columns[static_cast<std::size_t>(i)];
      out.heat_residual_year_frac =
          numerics::abs(lane.year_heat_residual_j_per_m2) / lane.year_heat_throughput_j_per_m2;
      out.water_residual_year_m = numerics::abs(lane.year_water_residual_m);
    }
  }

  void deck_temperatures(int stage, std::span<double> temperature_c) const override {
    const auto& slices = stage < 0 ? deck_.temperature_c : stage == 0 ? first_deck_c_ : deck_.stage_c;
    for (int i = 0; i < n_stacks_; ++i) {
      for (int k = 0; k < deck_.n; ++k)
        temperature_c[static_cast<std::size_t>(i * deck_.n + k)] = lane_at(slices[k], i);
    }
  }
  [[nodiscard]] double ceiling_c(int stack) const override { return lane_at(stage_nodes_[1][N::ceiling], stack); }
  [[nodiscard]] long n_capped() const override { return n_capped_; }

 private:
  /// What does not change of one store; its slices are alike.
  struct ModuleStore {
    std::size_t first_slice = 0, end_slice = 0;
    L slice_m{0.0};
    L heat_capacity_dry_j_per_m3_k{0.0};
    L conductivity_dry_w_per_m_k{1.0}, wet_rise_w_per_m_k{0.0}, wet_bend{0.0}, wet_from_frac{0.0}, saturated_frac{1.0};
  };
  [[nodiscard]] L capacity_j_per_m2_k(const ModuleStore& store, const L water_frac) const {
    return store.slice_m *
           (store.heat_capacity_dry_j_per_m3_k + L(water_heat_j_per_kg_k * water_density_kg_per_m3) * water_frac);
  }

  void set_constants(int i, const StackLane& lane);
  void put_stage(NodeStage<L>& s, int stage) const;
  void set_module_properties(int stage);
  void settle_module();
  void audit_step();

  /// The stack of a lane: spare lanes repeat the last.
  [[nodiscard]] std::size_t stack_of(int lane) const {
    return static_cast<std::size_t>(lane < n_stacks_ ? lane : n_stacks_ - 1);
  }
  /// A figure of every lane's own work.
  template <class Value>
  [[nodiscard]] L of_lanes(const Value& value) const {
    return numerics::from_lanes<L>([&](int i) { return value(lanes_[static_cast<std::size_t>(i)]); });
  }

  /// Water down through a face of the module, in the flow last laid out.
  [[nodiscard]] L face_kg_per_m2_s(std::size_t face) const {
    return numerics::from_lanes<L>([&](int i) { return faces_kg_per_m2_s_[static_cast<std::size_t>(i)][face]; });
  }

  /// Room temperatures lie stack by stack.
  void spread(std::span<const RoomTemperatures> rooms, L& air_c, L& surface_c) const {
    air_c = numerics::from_lanes<L>([&](int i) { return rooms[stack_of(i)].air_c; });
    surface_c = numerics::from_lanes<L>([&](int i) { return rooms[stack_of(i)].surface_c; });
  }

  int n_stacks_;
  std::vector<StackLane> lanes_, saved_lanes_;
  NodeConstants<L> constants_{};
  L reflected_frac_{0.0};
  Column<L> module_;
  Column<L> deck_;
  std::vector<L> module_half_m2_k_per_w_;  // resistance of half a slice
  std::vector<ModuleStore> module_stores_;
  std::vector<L> deck_inverse_k_m2_per_j_;
  std::vector<L> start_capacity_j_per_m2_k_, end_capacity_j_per_m2_k_;
  std::vector<L> first_module_c_, first_deck_c_, first_deck_known_c_;
  std::array<std::vector<L>, 2> conducted_;
  std::array<NodeStage<L>, 2> stage_{};
  std::array<std::array<L, N::count>, 2> stage_nodes_{};
  std::array<L, 2> stage_room_air_c_{}, stage_room_surface_c_{};
  std::array<L, N::count> nodes_{}, last_stage_{};
  bool has_last_stage_ = false;
  L foliage_c_{0.0}, foliage_start_c_{0.0};
  std::array<L, 2> last_rate_{};
  System system_{};
  std::array<L, N::count> change_{};
  numerics::LastRow<L> ceiling_{L(1.0), L(0.0)};
  L room_air_c_{0.0}, room_surface_c_{0.0};
  std::vector<L> saved_module_c_, saved_deck_c_, saved_end_capacity_j_per_m2_k_;
  std::array<L, N::count> saved_nodes_{}, saved_last_stage_{};
  L saved_foliage_c_{0.0};
  std::array<L, 2> saved_last_rate_{};
  std::vector<L> deck_start_c_, module_start_c_;
  L carried_out_j_per_m2_{0.0};  // heat of all water that left during the step
  std::array<std::vector<double>, static_cast<std::size_t>(width)> faces_kg_per_m2_s_;  // by lane
  std::vector<L> taken_kg_per_m2_s_;  // by roots from each slice during the step
  std::vector<L> sideways_kept_;
  int current_ = 0;
  double step_s_ = 0.0;
  double factored_for_s_ = 0.0;
  bool is_after_jump_ = true;
  double hour_error_k_ = 0.0;
  long n_capped_ = 0, saved_n_capped_ = 0;
};

}  // namespace houseleek::simulation
